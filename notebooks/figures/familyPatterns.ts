import { type Family, families } from "../../lib/uncertainty/source.ts";
import type { Draw } from "./svgBuilder.ts";

/** Definitions of the patterns by which families are told apart without colour; ids start with the figure's. */
export function familyPatterns(draw: Draw, id: string): SVGElement[] {
  return families.map((family, i) =>
    draw(
      "pattern",
      { id: patternId(id, family), class: familyClass(family), width: 6, height: 6, patternUnits: "userSpaceOnUse" },
      draw("rect", { class: i === 0 ? "fig-solid" : "fig-wash", width: 6, height: 6 }),
      ...(strokes[family] === "" ? [] : [draw("path", { class: "fig-grain", d: strokes[family] })]),
    ),
  );
}

/** Value of `fill` for a family; the element needs `familyClass` too, for its outline. */
export function familyFill(id: string, family: Family): string {
  return `url(#${patternId(id, family)})`;
}

/** Class that sets `color` to that of the family. */
export function familyClass(family: Family): string {
  return `fig-f${families.indexOf(family) + 1}`;
}

/** Drawn in a tile of 6 × 6; strokes that leave it come in again on the other side. */
const strokes: Readonly<Record<Family, string>> = {
  "contact tool": "",
  machine: "M -1 1 L 1 -1 M 0 6 L 6 0 M 5 7 L 7 5",
  part: "M 0 1.5 H 6 M 0 4.5 H 6",
  fixture: "M 0 0 L 6 6 M 0 6 L 6 0",
  heat: "M 1.5 0 V 6 M 4.5 0 V 6",
  process: "M 1 1.5 H 2.4 M 4 4.5 H 5.4",
};

function patternId(id: string, family: Family): string {
  return `${id}-${family.replace(" ", "-")}`;
}
