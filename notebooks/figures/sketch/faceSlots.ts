import { turnAboutZ } from "../../../lib/base/vector.ts";
import type { FrameSolution } from "../../../lib/frame/solveFrame.ts";
import type { Face } from "../../../lib/part/part.ts";
import type { Plan } from "./planOf.ts";
import type { SketchTouch } from "./sketchModel.ts";

/** A face as it is drawn: a line along one axis at a place on the other, mm. */
export interface FaceLine {
  readonly face: Face;
  /** The axis that the face looks along. */
  readonly axis: 0 | 1;
  readonly at: number;
  readonly from: number;
  readonly to: number;
}

/** What stands on a face, and where along it. */
export interface FaceSlots {
  readonly line: FaceLine;
  readonly touches: readonly { readonly touch: SketchTouch; readonly along: number }[];
  /** Place of the datum letter; undefined where the face carries none. */
  readonly datum: number | undefined;
}

/** The faces of a plan as lines: sides first. */
export function faceLines({ x, y, inner }: Plan): FaceLine[] {
  const sides = ([0, 1] as const).flatMap((axis) => {
    const across = axis === 0 ? y : x;
    return (axis === 0 ? x : y).flatMap(({ face, at }) => (face ? [{ face, axis, at, from: across[0].at, to: across[1].at }] : []));
  });
  return [...sides, ...inner];
}

/**
 * Where touches and the datum letter stand on every face: a touch whose place
 * was noted where it was, everything else spread over what is left.
 *
 * @param part where this part is, to carry noted places to the drawing; undefined when that is not known
 * @param ofFixture faces beside the part's
 */
export function faceSlots(
  plan: Plan,
  touches: readonly SketchTouch[],
  part: FrameSolution | undefined,
  ofFixture: readonly FaceLine[] = [],
): FaceSlots[] {
  return [...faceLines(plan), ...ofFixture].map((line) => {
    const here = touches.filter(({ element }) => element.id === line.face.id);
    const noted = here.map((touch) => notedPlace(touch, line, part));
    const taken = noted.filter((along) => along !== undefined);
    const hasDatum = line.face.datum !== "";
    const free = spread(noted.filter((along) => along === undefined).length + (hasDatum ? 1 : 0), taken, line);
    const datum = hasDatum ? free.shift() : undefined;
    return { line, datum, touches: here.map((touch, i) => ({ touch, along: noted[i] ?? (free.shift() as number) })) };
  });
}

/** How near to its ends a face is drawn upon, as a share of its length. */
const endRoom = 0.04;

function notedPlace({ contact }: SketchTouch, { axis, from, to }: FaceLine, part: FrameSolution | undefined): number | undefined {
  const across = axis === 0 ? 1 : 0;
  if (part === undefined || !contact.noted[across] || !part.determined[0] || !part.determined[1]) return undefined;
  const offset = [0, 1, 2].map((i) => (contact.centre[i] as number) - (part.origin[i]?.value ?? 0)) as [number, number, number];
  // The coordinate along the travel is that of the tool's centre: near enough for a sketch, exact where it is asked for here.
  const place = turnAboutZ(offset, -part.rotation.value)[across];
  const room = (to - from) * endRoom;
  return Math.min(to - room, Math.max(from + room, place));
}

/** So many places along a line, as far as they can be from each other and from those taken; from the left, or from the top. */
function spread(count: number, taken: readonly number[], { axis, from, to }: FaceLine): number[] {
  if (taken.length === 0)
    return Array.from({ length: count }, (_, i) =>
      axis === 0 ? to - ((i + 1) * (to - from)) / (count + 1) : from + ((i + 1) * (to - from)) / (count + 1),
    );
  const places: number[] = [];
  const candidates = Array.from({ length: 21 }, (_, i) => from + ((to - from) * (i + 2)) / 24);
  for (let i = 0; i < count; i++) {
    const nearest = (place: number) => Math.min(...[...taken, ...places].map((other) => Math.abs(other - place)));
    // Never past an end: half of the distance to it counts as well.
    const room = (place: number) => Math.min(nearest(place), 1.2 * (place - from), 1.2 * (to - place));
    places.push(candidates.reduce((best, place) => (room(place) > room(best) + 1e-9 ? place : best)));
  }
  return places;
}
