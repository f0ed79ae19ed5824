import type { Budget } from "../uncertainty/budget.ts";
import { coverageFactor } from "../uncertainty/coverage.ts";
import { effectiveDegreesOfFreedom } from "../uncertainty/effectiveDegreesOfFreedom.ts";

/**
 * The coverage probability of every expanded uncertainty in a record: 2Φ(2) - 1, so that the coverage factor is 2 wherever the
 * standard uncertainty is well known, and grows by Student's t where it rests on few repeats (JCGM 100:2008, G.3 and the column
 * 95.45 % of Table G.2).
 */
export const coverageProbability = 0.9544997361036416;

export interface ExpandedUncertainty {
  /** Half-width of the interval about the value, in the value's unit. */
  readonly expandedUncertainty: number;
  readonly coverageFactor: number;
  readonly coverageProbability: number;
  /** Effective degrees of freedom of the standard uncertainty; `Infinity` where it is well known. */
  readonly degreesOfFreedom: number;
}

/** Expanded uncertainty U = k · u of a result (JCGM 100:2008, 6.2.1 and G.6.4). */
export function expandedUncertainty({ standardUncertainty, contributions }: Budget): ExpandedUncertainty {
  const degreesOfFreedom = effectiveDegreesOfFreedom(
    contributions.map(({ amount, source: { degreesOfFreedom, varianceEstimate } }) => ({
      contribution: amount,
      degreesOfFreedom,
      varianceEstimate,
    })),
  );
  const factor = coverageFactor(coverageProbability, degreesOfFreedom);
  return { expandedUncertainty: factor * standardUncertainty, coverageFactor: factor, coverageProbability, degreesOfFreedom };
}
