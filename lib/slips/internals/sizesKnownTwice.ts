import type { PartLocation } from "../../datum/locatePart.ts";
import { type MeasuredSize, measureSizes } from "../../datum/measureSizes.ts";
import { diameterOf } from "../../datum/partSizes.ts";
import type { Uncertain } from "../../uncertainty/uncertain.ts";

/** A size that touches find and that is known otherwise: as measured, or as the drawing allows. */
export interface SizeKnownTwice {
  readonly size: MeasuredSize;
  /** Touched less known, mm. */
  readonly difference: Uncertain;
  readonly isMeasured: boolean;
}

/** Dimensions, and diameters that have limits. */
export function sizesKnownTwice(location: PartLocation): SizeKnownTwice[] {
  const { setup, sizes } = location;
  return measureSizes(location).flatMap((size): SizeKnownTwice[] => {
    const drawn = sizes.sizes.find(({ id }) => id === size.id);
    const isLimited =
      setup.part.dimensions.some(({ id }) => id === size.id) ||
      setup.part.elements.some((each) => diameterOf(each.id) === size.id && "diameterLimits" in each && each.diameterLimits);
    if (drawn === undefined || !isLimited) return [];
    const difference = size.difference ?? size.size.minus(size.nominal).minus(drawn.batch);
    return [{ size, difference, isMeasured: drawn.measured !== undefined }];
  });
}
