import { unitVector } from "../../../lib/base/vector.ts";
import { pathOf } from "../svgBuilder.ts";
import { textWidth } from "../textWidth.ts";
import { arrowhead, type Board, boxAbout, label, type Side } from "./board.ts";
import { radiusOnSheet } from "./drawPart.ts";
import type { FaceSlots } from "./faceSlots.ts";
import type { Plan } from "./planOf.ts";
import { moved, type Spot } from "./projection.ts";
import type { SketchTouch } from "./sketchModel.ts";

/** Radius of the stylus as it is drawn, and how long its way is, pixels. */
const ball = 4;
export const travelLength = 36;
/** Room of a line of a touch's name, pixels. */
const nameRoom = 84;
/** Where along its way a name stands. */
const nameAt = ball + travelLength * 0.6;

/** How far a name about the way of a touch reaches off a face that stands upright on the sheet. */
export function nameReach(name: string): number {
  return ball + nameAt + Math.min(nameRoom, textWidth(name)) / 2 + 4;
}

/** Touches of flat faces: the way of the tool along the machine's axis, up to the ball that stands against the face. */
export function drawFaceTouches(board: Board, slots: readonly FaceSlots[]): void {
  // The faint ones first, so that the strong ones lie over them.
  const all = slots.flatMap(({ line, touches }) => touches.map((each) => ({ ...each, line })));
  for (const { line, touch, along } of all.sort((a, b) => weight(a.touch) - weight(b.touch))) {
    const { projection } = board;
    const contact = line.axis === 0 ? projection.spot(line.at, along) : projection.spot(along, line.at);
    const [nx, ny] = unitVector(line.face.outward);
    const stop = moved(contact, ball + 0.5, projection.along(nx, ny));
    const way = travelOf(touch);
    drawTouch(board, touch, stop, way, travelLength);
    nameTouch(board, touch, moved(stop, -nameAt, way), way, 7, "not at its end");
  }
}

/** Touches of angled faces from the side, evenly along what is drawn of each. */
export function drawAngledTouches(board: Board, { angled }: Plan, touches: readonly SketchTouch[]): void {
  for (const face of angled) {
    const own = touches.filter(({ element, contact }) => element.id === face.element.id && contact.travel[2] === 0);
    const [from, to] = [board.projection.spot(...face.from), board.projection.spot(...face.to)];
    const { facing } = face.element;
    const out = board.projection.along(Math.cos(facing), Math.sin(facing));
    for (const [i, touch] of own.entries()) {
      const share = (i + 1) / (own.length + 1);
      const contact: Spot = [from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1])];
      const stop = moved(contact, ball + 0.5, out);
      const way = travelOf(touch);
      drawTouch(board, touch, stop, way, travelLength);
      nameTouch(board, touch, moved(stop, -nameAt, way), way, 7, "not at its end");
    }
  }
}

/** Touches of round walls, and sweeps about them. */
export function drawRoundTouches(board: Board, { rounds }: Pick<Plan, "rounds">, touches: readonly SketchTouch[]): void {
  for (const touch of [...touches].sort((a, b) => weight(a) - weight(b))) {
    const round = rounds.find(({ element }) => element.id === touch.element.id);
    if (round === undefined) continue;
    const centre = board.projection.spot(round.x, round.y);
    const radius = radiusOnSheet(board, round.element.diameter / 2);
    const inside = round.element.kind === "bore";
    if (touch.touch.travelling === "sweep") {
      drawSweep(board, touch, centre, inside ? Math.max(5, radius - 7) : radius + 7);
      continue;
    }
    const way = travelOf(touch);
    const stop = moved(centre, (inside ? radius : -radius) - ball - 0.5, way);
    // In a bore the way starts short of the middle, where the zero may be.
    drawTouch(board, touch, stop, way, inside ? Math.min(travelLength, Math.max(9, radius - 2 * ball - 10)) : 28);
    if (inside) nameTouch(board, touch, moved(centre, radius, way), [-way[0], -way[1]], 4, "at its end first");
    else nameTouch(board, touch, moved(stop, -ball - 14, way), way, 8, "not at its end");
  }
}

function drawTouch(board: Board, touch: SketchTouch, stop: Spot, way: Spot, length: number): void {
  const { draw, marks, obstacles } = board;
  const edge = moved(stop, -ball, way);
  const tail = moved(stop, -ball - length, way);
  marks.push(
    draw(
      "g",
      { class: touchClass(touch) },
      draw("title", {}, touchInWords(touch)),
      ...(touch.lit ? [draw("circle", { class: "fig-ring", cx: stop[0], cy: stop[1], r: ball + 4 })] : []),
      draw("path", { class: "fig-way", d: pathOf("M", ...tail, "L", ...moved(edge, -6, way)) }),
      arrowhead(draw, edge, way, "fig-tip", touch.used || touch.lit ? 9 : 7),
      draw("circle", { class: "fig-ball", cx: stop[0], cy: stop[1], r: ball }),
    ),
  );
  obstacles.push(boxAbout(tail, stop, ball));
}

/** The name about a spot: beside the way, or before that at its `end`. */
function nameTouch(board: Board, touch: SketchTouch, spot: Spot, way: Spot, gap: number, end: "not at its end" | "at its end first"): void {
  const flat = Math.abs(way[0]) > Math.abs(way[1]);
  const start: Side = flat ? (way[0] > 0 ? "left" : "right") : way[1] > 0 ? "above" : "below";
  const beside: Side[] = flat ? ["above", "below"] : ["right", "left"];
  label(board, touch.touch.id, spot, {
    className: touch.lit ? "fig-strong fig-marked" : touch.used ? "" : "fig-soft",
    optional: !touch.used && !touch.lit,
    room: nameRoom,
    gap,
    prefer: end === "not at its end" ? beside : [start, ...beside],
  });
}

function drawSweep(board: Board, touch: SketchTouch, centre: Spot, radius: number): void {
  const { draw, marks } = board;
  const at = (angle: number): Spot => [centre[0] + radius * Math.cos(angle), centre[1] + radius * Math.sin(angle)];
  const [start, end] = [at(-Math.PI / 2), at(Math.PI * 1.2)];
  const way: Spot = [-Math.sin(Math.PI * 1.2), Math.cos(Math.PI * 1.2)];
  marks.push(
    draw(
      "g",
      { class: touchClass(touch) },
      draw("title", {}, touchInWords(touch)),
      draw("path", { class: "fig-way", d: pathOf("M", ...start, "A", radius, radius, 0, 1, 1, ...end) }),
      arrowhead(draw, moved(end, 5, way), way, "fig-tip"),
    ),
  );
  label(board, touch.touch.id, centre, {
    gap: radius + 6,
    prefer: ["left", "right", "below", "above"],
    className: touch.used ? "" : "fig-soft",
    optional: !touch.used && !touch.lit,
  });
}

export function touchClass({ used, lit, quiet }: SketchTouch): string {
  const look = lit ? "fig-touch-lit" : used ? "fig-touch-used" : "fig-touch-other";
  return `fig-touch ${look}${quiet ? " fig-quiet" : ""}`;
}

export function touchInWords({ touch, element, used }: SketchTouch): string {
  const how =
    touch.travelling === "sweep" ? "swept" : touch.travelling === "radial" ? "travelling radially" : `travelling ${touch.travelling}`;
  return `${touch.id}: ${touch.tool} ${how}, on ${element.id}${used ? "" : "; not counted by this strategy"}`;
}

/** Direction of travel on the sheet: along the machine's axes, which the sheet's sides stand for. */
function travelOf({ contact: { travel } }: SketchTouch): Spot {
  return [travel[0], -travel[1]];
}

function weight({ used, lit }: SketchTouch): number {
  return lit ? 2 : used ? 1 : 0;
}
