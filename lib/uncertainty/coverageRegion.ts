import { entryOf, type Matrix, matrixOf, singularValues } from "../base/matrix.ts";
import { coverageFactor } from "./coverage.ts";
import { correlationEigen } from "./internals/correlationEigen.ts";
import { squareMiss } from "./internals/squareMiss.ts";
import { fisherQuantile } from "./special/fisherQuantile.ts";
import { solveLogarithmic } from "./special/solveLogarithmic.ts";

/** The smallest region that holds jointly normal results together with a given probability. */
export interface EllipticalRegion {
  readonly probability: number;
  /** k: the half axes are k standard uncertainties along them. */
  readonly factor: number;
  /** In how many directions there is doubt at all; less than the number of results where one of them is exact or follows from the others. */
  readonly dimension: number;
  /** Longest first, in the unit of the results; 0 in directions without doubt. */
  readonly halfAxes: readonly number[];
  /** Unit vector of each half axis; its first component that is not 0 is above 0. */
  readonly directions: readonly (readonly number[])[];
  /** Of two results: from the first to the long axis, towards the second, above -π/2 to π/2, radians; 0 where all directions are alike. */
  readonly angle: number | undefined;
  /** Length, area, volume ...; 0 where a direction is without doubt. */
  readonly content: number;
}

/** Intervals of the results that hold together with a given probability. */
export interface RectangularRegion {
  readonly probability: number;
  /** k: every interval is ± k standard uncertainties. */
  readonly factor: number;
  /** `exact` for one or two normal results; otherwise `bound`: the probability is at least the one asked for, whatever the results share. */
  readonly method: "exact" | "bound";
  /** The factor that holds at least the probability for any number of results, whatever they share: k_q with q = 1 - (1 - p)/m. */
  readonly boundFactor: number;
  /** By result, in its unit; 0 for an exact one. */
  readonly halfWidths: readonly number[];
  /** Area, volume ... of the box; 0 where a result is exact. */
  readonly content: number;
}

/**
 * The elliptical coverage region of jointly normal results (JCGM 102:2011, 6.5.2 and Table 1): (y - ŷ)ᵀ U⁻¹ (y - ŷ) <= k², with k² the quantile
 * of chi-square with as many degrees of freedom as there are directions in doubt. In a direction without doubt the region is flat; leaving it
 * out of k is what makes the flat region hold the probability and no more.
 *
 * With finite `degreesOfFreedom` k² = m·F(p; m, ν): the results are a multivariate t, as they are when all of their standard uncertainties
 * rest on one estimated standard deviation, known up to that one factor (H. Scheffé, The Analysis of Variance (1959), 2.3 and 3.4). It is not
 * Hotelling's T², for a covariance matrix of which every entry was estimated. Without end, m·F is the chi-square itself.
 *
 * @param covariance of the results, symmetric and positive semidefinite
 * @param probability above 0 and below 1
 * @param degreesOfFreedom above 0; `Infinity` unless given
 * @throws RangeError outside these ranges, or where `covariance` is no covariance matrix
 */
export function ellipticalRegion(covariance: Matrix, probability: number, degreesOfFreedom = Number.POSITIVE_INFINITY): EllipticalRegion {
  checkRanges(probability, degreesOfFreedom);
  const size = covariance.rows;
  const { values, rounding } = correlationEigen(coefficientsOf(covariance));
  const least = values[size - 1] as number;
  if (least < -rounding)
    throw new RangeError(`covariance: expected positive semidefinite, got correlations with the smallest eigenvalue ${least}`);
  const dimension = values.filter((value) => value > rounding).length;
  const factor = dimension === 0 ? 0 : Math.sqrt(dimension * fisherQuantile(probability, dimension, degreesOfFreedom));
  const axes = singularValues(covariance);
  const halfAxes = Array.from(axes.values, (variance, k) => (k < dimension ? factor * Math.sqrt(variance) : 0));
  const directions = halfAxes.map((_, k) => pointingUp(Array.from({ length: size }, (_, i) => entryOf(axes.right, i, k))));
  const [x, y] = directions[0] as readonly [number, number];
  return {
    probability,
    factor,
    dimension,
    halfAxes,
    directions,
    angle: size === 2 ? Math.atan2(y, x) : undefined,
    content: halfAxes.reduce((product, half) => product * half, unitBall(size)),
  };
}

/**
 * The rectangular coverage region (JCGM 102:2011, 6.5.3): every result within ± k standard uncertainties, all at once. For two normal results k
 * is exact, from their correlation; otherwise it is k_q with q = 1 - (1 - p)/m, which holds at least p whatever the results share
 * (Bonferroni's inequality). Exact results need no share and are not counted.
 *
 * @param covariance of the results, symmetric and positive semidefinite
 * @param probability above 0 and below 1
 * @param degreesOfFreedom above 0; `Infinity` unless given, finite ones give Student's t at q
 * @throws RangeError outside these ranges, or where `covariance` is no covariance matrix
 */
export function rectangularRegion(covariance: Matrix, probability: number, degreesOfFreedom = Number.POSITIVE_INFINITY): RectangularRegion {
  checkRanges(probability, degreesOfFreedom);
  const coefficients = coefficientsOf(covariance);
  const standard = Array.from({ length: covariance.rows }, (_, i) => Math.sqrt(entryOf(covariance, i, i)));
  const doubtful = standard.flatMap((u, i) => (u > 0 ? [i] : []));
  const boundFactor = doubtful.length === 0 ? 0 : coverageFactor(1 - (1 - probability) / doubtful.length, degreesOfFreedom);
  const exact = doubtful.length < 2 || (doubtful.length === 2 && degreesOfFreedom === Number.POSITIVE_INFINITY);
  const [first, second] = doubtful as [number, number];
  const factor =
    exact && doubtful.length === 2 ? squareFactor(probability, entryOf(coefficients, first, second), boundFactor) : boundFactor;
  const halfWidths = standard.map((u) => factor * u);
  return {
    probability,
    factor,
    method: exact ? "exact" : "bound",
    boundFactor,
    halfWidths,
    content: halfWidths.reduce((product, half) => product * 2 * half, 1),
  };
}

function squareFactor(probability: number, correlation: number, start: number): number {
  return solveLogarithmic(1 - probability, start, (k) => squareMiss(k, correlation));
}

/** Content of the ball of radius 1: V(m) = V(m - 2)·2π/m (DLMF 5.19.4). */
function unitBall(dimension: number): number {
  return dimension === 0 ? 1 : dimension === 1 ? 2 : (unitBall(dimension - 2) * 2 * Math.PI) / dimension;
}

/** Free of the results' units, so that one length and one angle do not decide what is small; exact results go with nothing. */
function coefficientsOf(covariance: Matrix): Matrix {
  const { rows, columns, entries } = covariance;
  if (rows !== columns || rows === 0) throw new RangeError(`covariance: expected as many rows as columns, got ${rows} x ${columns}`);
  if (!entries.every(Number.isFinite)) throw new RangeError(`covariance: expected finite entries, got ${entries}`);
  const scales = Array.from({ length: rows }, (_, i) => {
    const variance = entryOf(covariance, i, i);
    if (!(variance >= 0)) throw new RangeError(`covariance: expected variances >= 0, got ${variance}`);
    return Math.sqrt(variance);
  });
  return matrixOf(rows, rows, (i, j) => {
    const [entry, mirrored, scale] = [entryOf(covariance, i, j), entryOf(covariance, j, i), (scales[i] as number) * (scales[j] as number)];
    if (!(entry === mirrored || Math.abs(entry - mirrored) <= loose * scale))
      throw new RangeError(`covariance: expected symmetric, got ${entry} and ${mirrored}`);
    if (!(Math.abs(entry) <= scale * (1 + loose) + underflow * ((scales[i] as number) + (scales[j] as number))))
      throw new RangeError(`covariance: expected at most the product of both standard uncertainties, ${scale}, got ${entry}`);
    return scale === 0 ? 0 : i === j ? 1 : Math.max(-1, Math.min(1, entry / scale));
  });
}

/** A standard uncertainty below this has a variance of 0 in doubles. */
const underflow = Math.sqrt(Number.MIN_VALUE);

/** What rounding may have done to entries, relative to the standard uncertainties. */
const loose = 1e-12;

function checkRanges(probability: number, degreesOfFreedom: number): void {
  if (!(probability > 0 && probability < 1)) throw new RangeError(`probability: expected above 0 and below 1, got ${probability}`);
  if (!(degreesOfFreedom > 0)) throw new RangeError(`degreesOfFreedom: expected > 0, got ${degreesOfFreedom}`);
}

/** An axis has no sense of its own. */
function pointingUp(vector: readonly number[]): readonly number[] {
  const first = vector.find((component) => component !== 0) ?? 0;
  return first < 0 ? vector.map((component) => 0 - component) : vector;
}
