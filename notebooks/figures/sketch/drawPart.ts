import type { Element } from "../../../lib/part/part.ts";
import { pathOf } from "../svgBuilder.ts";
import { type Board, boxesAlong, label } from "./board.ts";
import { type FaceLine, faceLines } from "./faceSlots.ts";
import type { Plan } from "./planOf.ts";
import { moved, type Spot } from "./projection.ts";

/** Outline, walls, middles, and round elements with their centre lines. */
export function drawPart(board: Board, plan: Plan, rough: ReadonlySet<string>): void {
  const { draw, marks, projection } = board;
  const corners = (
    [
      [0, 0],
      [1, 0],
      [1, 1],
      [0, 1],
    ] as const
  ).map(([i, j]) => projection.spot(plan.x[i].at, plan.y[j].at));
  const outline = corners.map(([x, y], i) => pathOf(i === 0 ? "M" : "L", x, y)).join(" ");
  marks.push(draw("path", { class: "fig-metal", d: `${outline} Z` }));
  for (const line of faceLines(plan)) if (rough.has(line.face.id)) marks.push(roughness(board, line));
  // An open side is where nothing says that the part ends: a thin broken line.
  const sides = [
    { edge: plan.x[0], from: corners[0], to: corners[3] },
    { edge: plan.x[1], from: corners[1], to: corners[2] },
    { edge: plan.y[0], from: corners[0], to: corners[1] },
    { edge: plan.y[1], from: corners[3], to: corners[2] },
  ] as { edge: Plan["x"][0]; from: Spot; to: Spot }[];
  for (const { edge, from, to } of sides) {
    board.lines.push(...boxesAlong(from, to));
    const words = edge.face ? faceInWords(edge.face) : "no face is stated here";
    marks.push(
      draw("path", { class: edge.face ? lineClass(edge.face) : "fig-open", d: pathOf("M", ...from, "L", ...to) }, draw("title", {}, words)),
    );
  }
  for (const wall of plan.inner) {
    const [from, to] = endsOf(board, wall);
    marks.push(
      draw("path", { class: lineClass(wall.face), d: pathOf("M", ...from, "L", ...to) }, draw("title", {}, faceInWords(wall.face))),
    );
    label(board, wall.face.id, [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2], {
      className: "fig-small fig-soft",
      optional: true,
      prefer: wall.axis === 0 ? ["right", "left"] : ["above", "below"],
    });
    board.lines.push(...boxesAlong(from, to));
  }
  for (const face of plan.angled) drawAngled(board, face);
  for (const { element, axis, at } of plan.middles) drawMiddle(board, plan, element.id, axis, at);
  for (const { element, x, y } of plan.rounds) drawRound(board, element, projection.spot(x, y), element.diameter / 2);
}

function drawAngled(board: Board, face: Plan["angled"][number]): void {
  const [from, to] = [board.projection.spot(...face.from), board.projection.spot(...face.to)];
  board.marks.push(
    board.draw(
      "path",
      { class: lineClass(face.element), d: pathOf("M", ...from, "L", ...to) },
      board.draw("title", {}, faceInWords(face.element)),
    ),
  );
  board.lines.push(...boxesAlong(from, to));
  label(board, face.element.id, [(from[0] + 2 * to[0]) / 3, (from[1] + 2 * to[1]) / 3], {
    className: "fig-small fig-soft",
    optional: true,
    prefer: ["below left", "below right", "above left", "above right"],
  });
}

/** Radius below which a round element would not be seen, pixels. */
const leastRadius = 3;

export function radiusOnSheet({ projection: { scale } }: Board, radius: number): number {
  return Math.max(leastRadius, radius * scale);
}

function drawRound(board: Board, element: Element, centre: Spot, radius: number): void {
  const { draw, marks, projection } = board;
  const r = radiusOnSheet(board, radius);
  const kind = element.kind === "bore" ? "fig-hole" : "fig-boss";
  const arm = r + Math.max(4, r * 0.25);
  const [across, up] = [projection.along(1, 0), projection.along(0, 1)];
  const cross = [across, up].map((way) => pathOf("M", ...moved(centre, -arm, way), "L", ...moved(centre, arm, way))).join(" ");
  marks.push(
    draw(
      "circle",
      { class: `${kind} ${lineClass(element)}`, cx: centre[0], cy: centre[1], r },
      draw("title", {}, `${element.id}, ${element.made === "here" ? "cut in this setup" : "on the part before"}`),
    ),
    draw("path", { class: "fig-chain", d: cross }),
  );
  board.obstacles.push({ x: centre[0] - r, y: centre[1] - r, width: 2 * r, height: 2 * r });
  label(board, element.id, centre, {
    gap: r + 3,
    optional: true,
    className: "fig-small",
    prefer: ["above right", "below right", "above left", "below left", "above", "below"],
  });
}

function drawMiddle({ draw, marks, projection }: Board, { x, y }: Plan, id: string, axis: 0 | 1, at: number): void {
  const over = 10 / projection.scale;
  const [from, to] =
    axis === 0
      ? [projection.spot(at, y[0].at - over), projection.spot(at, y[1].at + over)]
      : [projection.spot(x[0].at - over, at), projection.spot(x[1].at + over, at)];
  marks.push(
    draw("path", { class: "fig-chain", d: pathOf("M", ...from, "L", ...to) }, draw("title", {}, `${id}, the middle of two faces`)),
  );
}

/** A strip of hatching inside the metal of a face. */
function roughness({ draw, projection, sheet }: Board, line: FaceLine): SVGElement {
  const depth = 7 / projection.scale;
  const inward = line.face.outward[0] === "+" ? -depth : depth;
  const corner = (along: number, into: number) =>
    line.axis === 0 ? projection.spot(line.at + into, along) : projection.spot(along, line.at + into);
  const corners = [corner(line.from, 0), corner(line.to, 0), corner(line.to, inward), corner(line.from, inward)];
  return draw("path", {
    class: "fig-rough",
    fill: `url(#${sheet.id}-rough)`,
    d: `${corners.map(([x, y], i) => pathOf(i === 0 ? "M" : "L", x, y)).join(" ")} Z`,
  });
}

function endsOf({ projection }: Board, { axis, at, from, to }: FaceLine): [Spot, Spot] {
  return axis === 0 ? [projection.spot(at, from), projection.spot(at, to)] : [projection.spot(from, at), projection.spot(to, at)];
}

function lineClass({ made }: Element): string {
  return made === "here" ? "fig-cut" : "fig-edge";
}

function faceInWords({ id, made, datum }: Element): string {
  return `${id}${datum === "" ? "" : `, datum ${datum}`}${made === "here" ? ", cut in this setup" : ""}`;
}
