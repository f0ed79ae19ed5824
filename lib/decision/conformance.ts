import type { Distribution } from "../uncertainty/distribution.ts";

/** From `lower` to `upper`, both included, in the unit of the quantity; -Infinity and Infinity where there is no such limit. */
export interface Interval {
  readonly lower: number;
  readonly upper: number;
}

/** How what is known of one measured quantity stands to its limits; everything from 0 to 1. */
export interface Conformance {
  /** Conformance probability: the chance that the true value keeps the limits (JCGM 106:2012, 7.1). */
  readonly probability: number;
  /** Chance that it lies below the lower limit. */
  readonly below: number;
  /** Chance that it lies above the upper limit. */
  readonly above: number;
  /** What accepting it risks: the chance that it does not conform (JCGM 106:2012, 3.3.13). */
  readonly specificConsumersRisk: number;
  /** What rejecting it risks: the chance that it does conform (JCGM 106:2012, 3.3.14). */
  readonly specificProducersRisk: number;
}

/**
 * Conformance probability and specific risks of one measured value: the distribution of the true value, integrated between the limits
 * (JCGM 106:2012, 7.1 to 7.4). A value exactly at a limit conforms.
 *
 * @param knowledge of the true value, once it has been measured
 * @throws RangeError if a limit is NaN, or the limits are reversed
 */
export function conformance(knowledge: Distribution, limits: Interval): Conformance {
  checkLimits(limits);
  const probability = clamped(knowledge.chanceWithin(limits.lower, limits.upper));
  const below = clamped(1 - knowledge.chanceWithin(limits.lower, Number.POSITIVE_INFINITY));
  const above = clamped(1 - knowledge.chanceWithin(Number.NEGATIVE_INFINITY, limits.upper));
  return { probability, below, above, specificConsumersRisk: clamped(1 - probability), specificProducersRisk: probability };
}

/** @throws RangeError if a limit is NaN, they are reversed, or a limit is at the wrong infinity */
export function checkLimits({ lower, upper }: Interval): void {
  if (!(lower < Number.POSITIVE_INFINITY)) throw new RangeError(`limits.lower: expected a number or -Infinity, got ${lower}`);
  if (!(upper > Number.NEGATIVE_INFINITY)) throw new RangeError(`limits.upper: expected a number or Infinity, got ${upper}`);
  if (!(lower <= upper)) throw new RangeError(`limits: expected lower <= upper, got ${lower} and ${upper}`);
}

/** A chance good to some 1e-11 may step over its ends by as much. */
function clamped(chance: number): number {
  return Math.min(1, Math.max(0, chance));
}
