import { type Axis, axes } from "../base/vector.ts";
import { frameTurns } from "../frame/frameTurns.ts";
import { certain, type Uncertain, unary } from "../uncertainty/uncertain.ts";
import type { PartLocation } from "./locatePart.ts";

/** What a face that lies askew is off by, where a radius is put along the axis in the place of the normal. */
export interface AxisOnlyError {
  readonly touch: string;
  readonly element: string;
  readonly axis: Axis;
  /** How much further along the travel the face lies, in the line of the travel, than R + a · r says, mm. */
  readonly error: Uncertain;
}

/**
 * What the rule F = R + a · r leaves out on a part that is turned about Z by θ. The tool meets the metal one reach away along the face's normal, which
 * is r/cos θ along the axis: the rule puts the face r (1/cos θ - 1) short (plane geometry). Frames, zeros and sizes are compensated along the normal and
 * have no such error; a face as one touch finds it (`measureFaces`), like a sum on paper, is told by the rule.
 *
 * @returns one for each touch of an upright flat face, the largest first; none where the touches do not tell the turn
 */
export function axisOnlyErrors({ thisPart, contacts }: PartLocation): AxisOnlyError[] {
  if (!thisPart.ok || !frameTurns(thisPart.value) || !thisPart.value.determined[3]) return [];
  const left = certain(1).over(unary("cosine", thisPart.value.rotation)).minus(1);
  const found = contacts.flatMap(({ touch, element, surface, travel, reach }) => {
    const axis = ([0, 1] as const).find((each) => Math.abs(travel[each]) === 1);
    return surface.kind === "plane" && axis !== undefined && Math.abs(surface.outward[axis]) === 1
      ? [{ touch, element, axis: axes[axis] as Axis, error: reach.times(left) }]
      : [];
  });
  return found.sort((one, other) => other.error.value - one.error.value);
}
