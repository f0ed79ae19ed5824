import { angleDimension, type Dimension, sameDimension, temperatureDimension } from "../formula/dimension.ts";
import { relativeStandardUncertainty } from "../uncertainty/relativeStandardUncertainty.ts";

/**
 * u(y)/|y| of a value of a person's own (JCGM 100:2008, 5.1.6); undefined where it is 0 or exact, and of an angle or a temperature, of which 0 is no
 * more than a place.
 */
export function ownRelativeUncertainty(
  budget: { readonly value: number; readonly standardUncertainty: number },
  dimension: Dimension,
): number | undefined {
  const isFromAPlace = sameDimension(dimension, angleDimension) || sameDimension(dimension, temperatureDimension);
  return isFromAPlace || budget.standardUncertainty === 0 ? undefined : relativeStandardUncertainty(budget);
}
