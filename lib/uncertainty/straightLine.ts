import { compensatedSum } from "../base/compensatedSum.ts";
import { exactProduct } from "../base/exactProduct.ts";
import { type CentredValues, centredValues } from "./internals/centredValues.ts";

/** One observation: `value` was found at `at`, which counts as exact. */
export interface LinePoint {
  readonly at: number;
  readonly value: number;
}

/** A line y₁ + y₂ (t − t₀) through observations, by least squares with equal weights. */
export interface StraightLine {
  readonly count: number;
  /** t₀, as asked for. */
  readonly reference: number;
  /** y₁, the line's value at the reference. */
  readonly intercept: number;
  /** y₂, per unit of t. */
  readonly slope: number;
  readonly standardUncertaintyOfIntercept: number;
  readonly standardUncertaintyOfSlope: number;
  /** Correlation coefficient of intercept and slope; it depends on the places alone, and is 0 where the reference is their mean. */
  readonly correlation: number;
  /** s, the standard deviation of one observation about the line, with n − 2. */
  readonly residualStandardDeviation: number;
  /** n − 2. */
  readonly degreesOfFreedom: number;
  /** Observation less line, in the order of the points. */
  readonly residuals: readonly number[];
  /** The mean place and the line's value there, which is independent of the slope. */
  readonly centre: LinePoint;
  /** Of the line at its centre, s/√n. */
  readonly standardUncertaintyAtCentre: number;
  /** Σ (t − t̄)², the squares of the places about their mean. */
  readonly spread: number;
}

/**
 * The same line where its points scatter by no less than `least`, which is exactly known: what the last digit of readings can tell, for instance, however
 * well they agree (JCGM 100:2008, F.2.2.1).
 */
export function withLeastScatter(line: StraightLine, least: number): StraightLine {
  if (line.residualStandardDeviation >= least) return line;
  const lever = (line.reference - line.centre.at) / Math.sqrt(line.spread);
  return {
    ...line,
    residualStandardDeviation: least,
    degreesOfFreedom: Number.POSITIVE_INFINITY,
    standardUncertaintyOfIntercept: least * Math.sqrt(1 / line.count + lever * lever),
    standardUncertaintyOfSlope: least / Math.sqrt(line.spread),
    standardUncertaintyAtCentre: least / Math.sqrt(line.count),
  };
}

/**
 * The straight line through observations (JCGM 100:2008, H.3, equations H.13).
 *
 * Worked out about the mean place, where intercept and slope are orthogonal, with sums that carry their rounding error along and a slope
 * that is corrected by the fit of its own residuals: the residual scatter is not lost in large values.
 *
 * @param points at least three, in at least two places
 * @param reference t₀ in the unit of the places; 0 when left out
 * @throws RangeError for fewer points, one place only, or numbers that are not finite or too large to be squared
 */
export function fitStraightLine(points: readonly LinePoint[], reference = 0): StraightLine {
  const count = points.length;
  if (count < 3) throw new RangeError(`points: expected at least 3, since two fix a line and tell nothing about scatter, got ${count}`);
  if (!Number.isFinite(reference)) throw new RangeError(`reference: expected a finite number, got ${reference}`);
  const places = centredValues(
    points.map(({ at }) => at),
    "places",
  );
  const values = centredValues(
    points.map(({ value }) => value),
    "values",
  );
  const spread = places.sumOfSquares;
  if (!(spread > 0 && spread < Number.POSITIVE_INFINITY)) {
    throw new RangeError(
      `places: expected at least two different ones whose squares are finite and above 0, got a sum of squares of ${spread}`,
    );
  }
  const slope = slopeOf(places.deviations, values.deviations, spread);
  // What the first slope leaves, from the observations themselves: the deviations of large values have been rounded.
  const left = points.map(({ at, value }) => exactResidual(at, value, slope, places, values));
  const correction = slopeOf(places.deviations, left, spread);
  const shift = totalOf(left) / count;
  const residuals = left.map((residual, i) => residual - shift - correction * (places.deviations[i] as number));
  const degreesOfFreedom = count - 2;
  const residualStandardDeviation = Math.sqrt(totalOf(residuals.map((residual) => residual * residual)) / degreesOfFreedom);

  const way = reference - places.mean;
  // The rounded slope leaves this at the reference, seen from 0; the correction reaches there from the centre.
  const intercept = correction * (way - places.remainder) + shift - exactResidual(reference, 0, slope, places, values);
  if (!(Number.isFinite(residualStandardDeviation) && Number.isFinite(intercept))) {
    throw new RangeError("values: expected numbers whose squares are finite, and a reference that the line reaches");
  }
  const lever = way / Math.sqrt(spread);
  const reach = Math.sqrt(1 / count + lever * lever);
  return {
    count,
    reference,
    intercept,
    slope: slope + correction,
    standardUncertaintyOfIntercept: residualStandardDeviation * reach,
    standardUncertaintyOfSlope: residualStandardDeviation / Math.sqrt(spread),
    correlation: lever / reach,
    residualStandardDeviation,
    degreesOfFreedom,
    residuals,
    centre: { at: places.mean, value: values.mean },
    standardUncertaintyAtCentre: residualStandardDeviation / Math.sqrt(count),
    spread,
  };
}

function slopeOf(places: readonly number[], values: readonly number[], spread: number): number {
  return totalOf(places.map((place, i) => place * (values[i] as number))) / spread;
}

/** `value` less the line of this slope through the centre, as if worked out in twice the digits and rounded once. */
function exactResidual(at: number, value: number, slope: number, places: CentredValues, values: CentredValues): number {
  const here = exactProduct(slope, at);
  const centre = exactProduct(slope, places.mean);
  return totalOf([
    value,
    -values.mean,
    -here.product,
    centre.product,
    -values.remainder,
    -here.error,
    centre.error,
    slope * places.remainder,
  ]);
}

function totalOf(terms: readonly number[]): number {
  const { sum, error } = compensatedSum(terms);
  return sum + error;
}
