import type { Vector } from "../../lib/base/vector.ts";
import type { Surface } from "../../lib/contacts/surface.ts";
import { type FrameContact, type FrameSolution, solveFrame } from "../../lib/frame/solveFrame.ts";
import { certain, type Uncertain } from "../../lib/uncertainty/uncertain.ts";

type Point = readonly [x: number, y: number];

function at(surface: Surface, [x, y]: Point, grows: boolean): FrameContact {
  const centre: Vector = [x, y, 0];
  const movements = grows ? [{ size: 0, shift: [0, 0, 0] as Vector, growth: 0.5 }] : [];
  // A face that looks along -Y is touched along +Y.
  return {
    surface,
    centre,
    travel: surface.kind === "plane" ? [0, 1, 0] : [1, 0, 0],
    movements,
    weight: 1,
    advance: certain(0),
    reach: certain(0),
  };
}

function solved(contacts: readonly FrameContact[], free: boolean, rotates: boolean): FrameSolution {
  const outcome = solveFrame(contacts, free ? [{ mode: "free", scale: 1, given: certain(0) }] : [], rotates);
  if (!outcome.ok) throw new Error(outcome.problems.map(({ what }) => what).join());
  return outcome.value;
}

/** The circle nearest to the points: touches of a bore with a tool of no radius, its diameter free. */
export function circleThrough(points: readonly Point[]) {
  const nominal = 5;
  const bore: Surface = { kind: "bore", axis: [0, 0, 0], radius: nominal };
  const frame = solved(
    points.map((point) => at(bore, point, true)),
    true,
    false,
  );
  return { x: frame.origin[0].value, y: frame.origin[1].value, radius: nominal + (frame.sizes[0] as Uncertain).value / 2, frame };
}

/** The line nearest to the points, square to itself: touches of a face with a tool of no radius, the part turned. */
export function lineThrough(points: readonly Point[]) {
  const face: Surface = { kind: "plane", point: [0, 0, 0], outward: [0, -1, 0] };
  const frame = solved(
    points.map((point) => at(face, point, false)),
    false,
    true,
  );
  const slope = Math.tan(frame.rotation.value);
  return { slope, intercept: frame.origin[1].value - slope * frame.origin[0].value, rotation: frame.rotation.value };
}
