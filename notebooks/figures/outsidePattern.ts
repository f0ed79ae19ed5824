import type { Draw } from "./svgBuilder.ts";

/** Hatching of what lies outside a tolerance; the id starts with the figure's. */
export function outsidePattern(draw: Draw, id: string): SVGElement {
  return draw(
    "pattern",
    { id: `${id}-outside`, class: "fig-bad", width: 5, height: 5, patternUnits: "userSpaceOnUse" },
    draw("rect", { class: "fig-wash", width: 5, height: 5 }),
    draw("path", { class: "fig-grain", d: "M -1 4 L 1 6 M 0 0 L 5 5 M 4 -1 L 6 1" }),
  );
}

/** Value of `fill` for what lies outside. */
export function outsideFill(id: string): string {
  return `url(#${id}-outside)`;
}
