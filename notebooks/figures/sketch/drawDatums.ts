import { unitVector } from "../../../lib/base/vector.ts";
import { pathOf } from "../svgBuilder.ts";
import { textWidth } from "../textWidth.ts";
import { type Board, boxAbout } from "./board.ts";
import { radiusOnSheet } from "./drawPart.ts";
import type { FaceSlots } from "./faceSlots.ts";
import type { Plan } from "./planOf.ts";
import { moved, type Spot } from "./projection.ts";

/** Height of the frame about a datum letter, pixels. */
const frame = 18;
/** From the surface to the far side of the frame. */
export const datumReach = 8 + 10 + frame;

/**
 * Datum feature indicators (ISO 5459:2011, 7.2.1): a filled triangle with its
 * base on the surface, a leader, and the letter in a frame. On round elements the triangle
 * stands on the wall, on a middle at the end of its line.
 */
export function drawDatums(board: Board, plan: Plan, slots: readonly FaceSlots[]): void {
  const { projection } = board;
  for (const { line, datum } of slots) {
    if (datum === undefined) continue;
    const foot = line.axis === 0 ? projection.spot(line.at, datum) : projection.spot(datum, line.at);
    const [x, y] = unitVector(line.face.outward);
    drawDatum(board, line.face.datum, foot, projection.along(x, y));
  }
  const diagonal: Spot = [Math.SQRT1_2, -Math.SQRT1_2];
  for (const { element, x, y } of plan.rounds) {
    if (element.datum !== "")
      drawDatum(board, element.datum, moved(projection.spot(x, y), radiusOnSheet(board, element.diameter / 2), diagonal), diagonal);
  }
  for (const { element, axis, at } of plan.middles) {
    if (element.datum === "") continue;
    const over = 10 / projection.scale;
    const foot = axis === 0 ? projection.spot(at, plan.y[1].at + over) : projection.spot(plan.x[1].at + over, at);
    drawDatum(board, element.datum, foot, axis === 0 ? projection.along(0, 1) : projection.along(1, 0));
  }
}

/** One indicator with its base at `foot`, standing off the surface along `out`. */
export function drawDatum(
  { draw, marks, obstacles }: Pick<Board, "draw" | "marks" | "obstacles">,
  letter: string,
  foot: Spot,
  out: Spot,
): void {
  const aside: Spot = [-out[1], out[0]];
  const top = moved(foot, 8, out);
  const corners = [moved(foot, 5, aside), moved(foot, -5, aside), top];
  const width = Math.max(frame, textWidth(letter) + 8);
  const reach = Math.abs(out[0]) * (width / 2) + Math.abs(out[1]) * (frame / 2);
  const middle = moved(top, 10 + reach, out);
  const box = { x: middle[0] - width / 2, y: middle[1] - frame / 2, width, height: frame };
  marks.push(
    draw("path", { class: "fig-triangle", d: `${corners.map(([x, y], i) => pathOf(i === 0 ? "M" : "L", x, y)).join(" ")} Z` }),
    draw("path", { class: "fig-thin", d: pathOf("M", ...top, "L", ...moved(middle, -reach, out)) }),
    draw("rect", { class: "fig-letter", ...box }),
    draw("text", { class: "fig-middle", x: middle[0], y: middle[1] + 4.3 }, letter),
  );
  obstacles.push(box, boxAbout(foot, top, 5));
}
