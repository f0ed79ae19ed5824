import { axisOf, indexOfAxis, unitVector } from "../../../lib/base/vector.ts";
import type { SetupEvaluation } from "../../../lib/decision/setupEvaluation.ts";
import type { Face } from "../../../lib/part/part.ts";
import { pathOf } from "../svgBuilder.ts";
import { type Board, boxesAlong, label } from "./board.ts";
import { radiusOnSheet } from "./drawPart.ts";
import type { FaceLine } from "./faceSlots.ts";
import type { Edge, Plan } from "./planOf.ts";
import { moved, type Spot } from "./projection.ts";
import type { SketchTouch } from "./sketchModel.ts";

/** Features of the fixture that were touched, as they stand about the plan of the part. */
export interface TouchedFixture {
  /** Upright faces: jaws and stops. */
  readonly lines: readonly FaceLine[];
  /** Pins and tooling holes. */
  readonly rounds: Plan["rounds"];
}

/** How far a stop or a pad reaches to either side of its place, as a share of the plan's extent. */
const shareOfPlan = 0.06;
/** How thick a face of the fixture is drawn, pixels. */
const thickness = 7;

export function touchedFixture({ setup, location }: SetupEvaluation, touches: readonly SketchTouch[], plan: Plan): TouchedFixture {
  const { elements } = location.touchable.setup.part;
  const touched = elements.filter(({ id }) => location.isOnFixture(id) && touches.some(({ element }) => element.id === id));
  const placeOf = (id: string, axis: 0 | 1) => location.touchable.located.places.get(id)?.[axis]?.nominal;
  const reach = shareOfPlan * Math.max(plan.x[1].at - plan.x[0].at, plan.y[1].at - plan.y[0].at);
  return {
    lines: touched.flatMap((element) => {
      if (element.kind !== "face") return [];
      const axis = indexOfAxis(axisOf(element.outward));
      const locator = setup.fixture.locators.find(({ id }) => id === element.id);
      if (axis === 2 || locator === undefined) return [];
      const across = axis === 0 ? plan.y : plan.x;
      const middle = locator.at[axis === 0 ? 1 : 0] ?? (across[0].at + across[1].at) / 2;
      const half = locator.kind === "fixed jaw" ? locator.span / 2 : reach;
      return [{ face: element, axis, at: placeOf(element.id, axis) ?? 0, from: middle - half, to: middle + half }];
    }),
    rounds: touched.flatMap((element) => {
      const [x, y] = [placeOf(element.id, 0), placeOf(element.id, 1)];
      return (element.kind === "bore" || element.kind === "boss") && x !== undefined && y !== undefined ? [{ element, x, y }] : [];
    }),
  };
}

/** The plan with its ends moved out to what of the fixture is drawn: how much of the sheet it takes. */
export function planWithFixture(
  plan: Plan,
  {
    lines,
    rounds,
  }: Pick<TouchedFixture, "lines"> & {
    readonly rounds: readonly { readonly element: { readonly diameter: number }; readonly x: number; readonly y: number }[];
  },
): Plan {
  const reaching = ([0, 1] as const).map((axis) => [
    ...lines.flatMap((line) => (line.axis === axis ? [line.at] : [line.from, line.to])),
    ...rounds.flatMap(({ element, x, y }) => [-1, 1].map((side) => (axis === 0 ? x : y) + (side * element.diameter) / 2)),
  ]);
  const widened = ([low, high]: readonly [Edge, Edge], axis: 0 | 1): readonly [Edge, Edge] => [
    { ...low, at: Math.min(low.at, ...(reaching[axis] ?? [])) },
    { ...high, at: Math.max(high.at, ...(reaching[axis] ?? [])) },
  ];
  return { ...plan, x: widened(plan.x, 0), y: widened(plan.y, 1) };
}

/** Its upright faces as bars whose metal lies behind the face, each with its name. */
export function drawTouchedFixture(board: Board, { lines, rounds }: TouchedFixture): void {
  const { draw, marks, projection, lines: taken } = board;
  for (const { face, axis, at, from, to } of lines) {
    const spot = (along: number): Spot => (axis === 0 ? projection.spot(at, along) : projection.spot(along, at));
    const back = backOf(board, face);
    const [a, b] = [spot(from), spot(to)];
    const [behindB, behindA] = [moved(b, thickness, back), moved(a, thickness, back)];
    marks.push(
      draw(
        "path",
        { class: "fig-fixture", d: `${pathOf("M", ...a, "L", ...b, "L", ...behindB, "L", ...behindA)} Z` },
        draw("title", {}, `${face.id}, of the fixture`),
      ),
    );
    taken.push(...boxesAlong(a, b));
    label(board, face.id, moved([(a[0] + b[0]) / 2, (a[1] + b[1]) / 2], thickness, back), { gap: 5, className: "fig-small fig-soft" });
  }
  for (const { element, x, y } of rounds) {
    const [cx, cy] = projection.spot(x, y);
    const r = radiusOnSheet(board, element.diameter / 2);
    marks.push(
      draw(
        "circle",
        { class: element.kind === "bore" ? "fig-fixture fig-hole" : "fig-fixture", cx, cy, r },
        draw("title", {}, `${element.id}, of the fixture`),
      ),
    );
    label(board, element.id, [cx, cy], { gap: r + 8, className: "fig-small fig-soft", prefer: ["below", "left", "right", "above"] });
  }
}

/** Direction on the sheet into the metal. */
function backOf({ projection }: Board, { outward }: Face): Spot {
  const [nx, ny] = unitVector(outward);
  return projection.along(-nx, -ny);
}
