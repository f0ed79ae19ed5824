import { unitVector } from "../../../lib/base/vector.ts";
import { type Box, placeLabels } from "../placeLabels.ts";
import { pathOf } from "../svgBuilder.ts";
import { textWidth } from "../textWidth.ts";
import { type Board, boxAbout } from "./board.ts";
import { radiusOnSheet } from "./drawPart.ts";
import type { FaceSlots } from "./faceSlots.ts";
import type { Plan } from "./planOf.ts";
import { moved, type Spot } from "./projection.ts";

/** Height of the frame about a datum letter, pixels. */
const frame = 18;
const leader = 10;
/** From the surface to the far side of the frame. */
export const datumReach = 8 + leader + frame;

/**
 * Datum feature indicators (ISO 5459:2011): a filled triangle with its
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
  for (const { element, x, y } of plan.rounds) {
    if (element.datum === "") continue;
    const centre = projection.spot(x, y);
    const radius = radiusOnSheet(board, element.diameter / 2);
    const out = freestWay(board, element.datum, centre, radius);
    drawDatum(board, element.datum, moved(centre, radius, out), out);
  }
  for (const face of plan.angled) {
    const { datum, facing } = face.element;
    if (datum === "") continue;
    // Off the end, where a corner may be the zero.
    const foot = ([0, 1] as const).map((axis) => (face.from[axis] + 4 * face.to[axis]) / 5) as [number, number];
    drawDatum(board, datum, projection.spot(...foot), projection.along(Math.cos(facing), Math.sin(facing)));
  }
  for (const { element, axis, at } of plan.middles) {
    if (element.datum === "") continue;
    const over = 10 / projection.scale;
    const foot = axis === 0 ? projection.spot(at, plan.y[1].at + over) : projection.spot(plan.x[1].at + over, at);
    drawDatum(board, element.datum, foot, axis === 0 ? projection.along(0, 1) : projection.along(1, 0));
  }
}

const diagonals: readonly Spot[] = [
  [Math.SQRT1_2, -Math.SQRT1_2],
  [-Math.SQRT1_2, -Math.SQRT1_2],
  [Math.SQRT1_2, Math.SQRT1_2],
  [-Math.SQRT1_2, Math.SQRT1_2],
];

/** The diagonal off a round wall on which the letter covers least. */
function freestWay({ obstacles, sheet }: Board, letter: string, centre: Spot, radius: number): Spot {
  const candidates = diagonals.map((way) => letterBox(letter, moved(centre, radius + 8, way), way));
  const [placed] = placeLabels([{ candidates }], obstacles, { x: 0, y: 0, width: sheet.width, height: Number.MAX_VALUE });
  const index = candidates.findIndex(({ x, y }) => x === placed?.box.x && y === placed.box.y);
  return diagonals[Math.max(0, index)] as Spot;
}

/** The frame of a letter whose leader starts at the top of the triangle. */
function letterBox(letter: string, top: Spot, out: Spot): Box {
  const width = Math.max(frame, textWidth(letter) + 8);
  const middle = moved(top, leader + letterReach(width, out), out);
  return { x: middle[0] - width / 2, y: middle[1] - frame / 2, width, height: frame };
}

function letterReach(width: number, out: Spot): number {
  return Math.abs(out[0]) * (width / 2) + Math.abs(out[1]) * (frame / 2);
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
  const box = letterBox(letter, top, out);
  const middle: Spot = [box.x + box.width / 2, box.y + box.height / 2];
  const end = moved(middle, -letterReach(box.width, out), out);
  marks.push(
    draw("path", { class: "fig-triangle", d: `${corners.map(([x, y], i) => pathOf(i === 0 ? "M" : "L", x, y)).join(" ")} Z` }),
    draw("path", { class: "fig-thin", d: pathOf("M", ...top, "L", ...end) }),
    draw("rect", { class: "fig-letter", x: box.x, y: box.y, width: box.width, height: box.height }),
    draw("text", { class: "fig-middle", x: middle[0], y: middle[1] + 4.3 }, letter),
  );
  obstacles.push(box, boxAbout(foot, top, 5));
}
