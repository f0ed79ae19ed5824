import { pathOf } from "../svgBuilder.ts";
import { arrowhead, type Board } from "./board.ts";
import { touchClass, touchInWords } from "./drawTouches.ts";
import type { Spot } from "./projection.ts";
import type { SketchTouch } from "./sketchModel.ts";

/** A tool that came down on a face, seen from the side, with what lay between. */
export function drawTool(touch: SketchTouch, centre: number, surface: number, y: number, { draw }: Pick<Board, "draw">): SVGElement[] {
  const spacer = touch.touch.spacer !== undefined;
  const end = surface - (spacer ? 10 : 0.75);
  const way: Spot = [0, 1];
  const arrow = centre - 16;
  return [
    draw(
      "g",
      { class: touchClass(touch) },
      draw("title", {}, touchInWords(touch)),
      ...(spacer ? [draw("rect", { class: "fig-spacer", x: centre - 11, y: surface - 9.5, width: 22, height: 9 })] : []),
      draw("path", { class: "fig-shank", d: pathOf("M", centre - 6, y + 22, "V", end, "H", centre + 6, "V", y + 22) }),
      draw("path", { class: "fig-break", d: pathOf("M", centre - 8, y + 24, "l", 6, -4, "l", 4, 4, "l", 6, -4) }),
      draw("path", { class: "fig-way", d: pathOf("M", arrow, y + 26, "V", surface - 26) }),
      arrowhead(draw, [arrow, surface - 18], way, "fig-tip", 8),
    ),
  ];
}

/** Z of part zero on a face, seen from the side. */
export function drawHeightZero([x, y]: Spot, { draw }: Pick<Board, "draw">): SVGElement[] {
  return [
    draw(
      "g",
      { class: "fig-zero" },
      draw("title", {}, "Z of part zero"),
      draw("path", { class: "fig-zero-axis", d: pathOf("M", x - 9, y, "H", x + 9, "M", x, y + 9, "V", y - 22) }),
      arrowhead(draw, [x, y - 28], [0, -1], "fig-zero-tip", 8),
      draw("circle", { class: "fig-zero-ring", cx: x, cy: y, r: 5 }),
      draw("text", { class: "fig-calm fig-strong fig-end", x: x - 3, y: y - 32 }, "Z"),
    ),
  ];
}
