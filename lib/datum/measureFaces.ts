import { type Axis, axes } from "../base/vector.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";
import { type PartLocation, takenContacts } from "./locatePart.ts";

/** A face as one touch finds it: F = R + a · r. */
export interface MeasuredFace {
  readonly touch: string;
  readonly element: string;
  readonly axis: Axis;
  /** Machine coordinate of the touched point along the travel, mm. */
  readonly coordinate: Uncertain;
}

/** Machine coordinates of all touched faces of part and fixture, for touches along an axis; an angled face has no coordinate along one. */
export function measureFaces(location: PartLocation): MeasuredFace[] {
  return takenContacts(location).flatMap(({ touch, element, travel, centre, advance, reach, surface }) => {
    const index = travel.findIndex((component) => Math.abs(component) === 1);
    if (
      surface.kind === "axis" ||
      (surface.kind === "plane" && Math.abs(surface.outward[index as 0 | 1 | 2]) !== 1) ||
      (index !== 0 && index !== 1 && index !== 2)
    )
      return [];
    const side = travel[index];
    return [{ touch, element, axis: axes[index] as Axis, coordinate: advance.plus(reach).times(side).plus(centre[index]) }];
  });
}
