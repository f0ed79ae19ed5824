import { compensatedSum } from "../base/compensatedSum.ts";
import { exactProduct } from "../base/exactProduct.ts";
import type { LinePoint } from "./straightLine.ts";

/** A line b · t through the origin. */
export interface ProportionalLine {
  readonly count: number;
  /** b, per unit of t. */
  readonly slope: number;
  readonly standardUncertaintyOfSlope: number;
  /** Standard deviation of one observation about the line, with n − 1. */
  readonly residualStandardDeviation: number;
  /** n − 1. */
  readonly degreesOfFreedom: number;
  /** Observation less line, in the order of the points. */
  readonly residuals: readonly number[];
}

/**
 * The line through the origin by least squares with equal weights: b = Σ t y / Σ t², for a value that is known to be nothing at 0.
 *
 * @param points at least two, not all at 0
 * @throws RangeError for fewer points, all at 0, or numbers that are not finite or too large to be squared
 */
export function fitProportionalLine(points: readonly LinePoint[]): ProportionalLine {
  const count = points.length;
  if (count < 2)
    throw new RangeError(`points: expected at least 2, since one fixes the slope and tells nothing about scatter, got ${count}`);
  const spread = productSum(points, ({ at }) => at);
  const moment = productSum(points, ({ value }) => value);
  if (!(spread > 0 && spread < Number.POSITIVE_INFINITY && Number.isFinite(moment))) {
    throw new RangeError(`points: expected finite numbers, not all at 0, whose squares are finite and above 0, got ${spread} for Σt²`);
  }
  const slope = moment / spread;
  const residuals = points.map(({ at, value }) => {
    const { product, error } = exactProduct(slope, at);
    return value - product - error;
  });
  const degreesOfFreedom = count - 1;
  const { sum, error } = compensatedSum(residuals.map((residual) => residual * residual));
  const residualStandardDeviation = Math.sqrt((sum + error) / degreesOfFreedom);
  if (!Number.isFinite(residualStandardDeviation)) throw new RangeError("values: expected finite numbers whose squares are finite");
  return {
    count,
    slope,
    standardUncertaintyOfSlope: residualStandardDeviation / Math.sqrt(spread),
    residualStandardDeviation,
    degreesOfFreedom,
    residuals,
  };
}

/** Σ t · factor, every product with its rounding error. */
function productSum(points: readonly LinePoint[], factor: (point: LinePoint) => number): number {
  const products = points.map((point) => exactProduct(point.at, factor(point)));
  const { sum, error } = compensatedSum([...products.map(({ product }) => product), ...products.map((part) => part.error)]);
  return sum + error;
}
