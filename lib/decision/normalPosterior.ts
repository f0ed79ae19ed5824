import type { Distribution } from "../uncertainty/distribution.ts";
import { linearDistribution } from "../uncertainty/linearDistribution.ts";

/** An estimate and its standard uncertainty (finite, at least 0), in the unit of the quantity. */
export interface NormalKnowledge {
  readonly estimate: number;
  readonly standardUncertainty: number;
}

/**
 * What is known of a quantity after a measurement, when it was known before and both are normal: the estimates weighed by the inverse
 * squares of their uncertainties (JCGM 106:2012, annex A: y = (y_m/u_m² + y_0/u_0²)/(1/u_m² + 1/u_0²), 1/u² = 1/u_m² + 1/u_0²).
 * Its `mean` is the best estimate.
 *
 * @throws RangeError for an estimate or uncertainty out of range, or for two exact values that differ
 */
export function normalPosterior(before: NormalKnowledge, measured: NormalKnowledge): Distribution {
  for (const [name, { estimate, standardUncertainty }] of [["before", before] as const, ["measured", measured] as const]) {
    if (!Number.isFinite(estimate)) throw new RangeError(`${name}.estimate: expected finite, got ${estimate}`);
    if (!(standardUncertainty >= 0 && standardUncertainty < Number.POSITIVE_INFINITY))
      throw new RangeError(`${name}.standardUncertainty: expected finite and >= 0, got ${standardUncertainty}`);
  }
  const together = Math.hypot(before.standardUncertainty, measured.standardUncertainty);
  const difference = measured.estimate - before.estimate;
  if (together === 0) {
    if (difference !== 0)
      throw new RangeError(`measured.estimate: expected ${before.estimate}, since both are exact, got ${measured.estimate}`);
    return linearDistribution(measured.estimate, []);
  }
  // Ratios first: squares of small uncertainties would vanish.
  const share = before.standardUncertainty / together;
  const standardDeviation = share * measured.standardUncertainty;
  const mean = before.estimate + share * share * difference;
  return linearDistribution(mean, [{ coefficient: 1, distribution: { shape: "normal", standardDeviation } }]);
}
