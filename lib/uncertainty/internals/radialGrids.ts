import { type AngleAverage, angleAverage } from "./angleSets.ts";
import { type ChordFrame, type Covariance2, chordFrame, type Vector2 } from "./chords.ts";
import { gradedCount, gradedCut } from "./gradedNodes.ts";
import { type HankelGrid, smallestRadialPhase } from "./hankelLaw.ts";
import { envelopeAt, isSkewed } from "./ingredients.ts";
import { lightReach } from "./inversionGrid.ts";
import type { LatticeGrid } from "./latticeLaw.ts";
import { type PlanarIngredients, planarCovariance, projected } from "./planarIngredients.ts";
import { type RadialFarTail, radialFarTail } from "./radialFarTail.ts";
import { studentReach } from "./studentReach.ts";

/** What a way to invert costs: about so many ns to set up, and for each chance. */
export interface Cost {
  readonly build: number;
  readonly evaluation: number;
}

export interface HankelPlan extends Cost {
  readonly grid: HankelGrid;
  readonly average: AngleAverage;
  readonly farTail: RadialFarTail | undefined;
}

export interface LatticePlan extends Cost {
  readonly grid: LatticeGrid;
}

/**
 * The sparser of the two Hankel grids that keep the error of a chance near `tolerance`.
 *
 * @param leastRange where the far law may take over: as that of `inversionGrid`
 */
export function planHankel(mean: Vector2, sum: PlanarIngredients, tolerance: number, leastRange = 0): HankelPlan {
  const covariance = planarCovariance(sum, heavyVariance);
  const [smaller, larger] = principalVariances(covariance);
  const average = angleAverage(mean, sum, covariance);
  const light = Math.hypot(...mean) + (sum.shaped.length > 0 ? farthestReach(sum, tolerance) : sigmasTo(tolerance) * Math.sqrt(larger));
  const cut = averageCut(sum, covariance, light, tolerance);
  const whole = light + (sum.students.length > 0 ? farthestStudentReach(sum, tolerance) : 0);
  // Three errors of the size of the tolerance; more with skewed sources, by comparison with quadrature (tests).
  const bessel: HankelGrid = {
    kind: "bessel",
    count: Math.ceil((cut * whole) / Math.PI) + 1,
    range: whole,
    error: (isSkewed(sum) ? 10 : 3) * tolerance,
  };
  const besselCost = costOf(sum, average, bessel.count, (k) => (Math.PI * (k + 0.75)) / whole);
  if (sum.students.length === 0) return { grid: bessel, ...besselCost, average, farTail: undefined };
  const farTail = radialFarTail(mean, sum);
  let range = Math.max(2 * light, 2 * Math.sqrt(smaller + larger), leastRange);
  while (farTail.error(range) > farErrorFor(tolerance) && range < whole) range *= 1.25;
  const count = gradedCount(range, cut, smallestRadialPhase);
  const graded: HankelGrid = { kind: "graded", count, range, error: bessel.error + farTail.error(range) };
  const gradedCost = costOf(sum, average, count, (k) => gradedCut(range, k, smallestRadialPhase));
  return gradedCost.build < besselCost.build
    ? { grid: graded, ...gradedCost, average, farTail }
    : { grid: bessel, ...besselCost, average, farTail };
}

/** A lattice in the skew coordinates of the cloud. */
export function planLattice(mean: Vector2, sum: PlanarIngredients, tolerance: number): LatticePlan {
  const frame = chordFrame(mean, planarCovariance(sum, heavyVariance));
  const [reachA, reachB] = [reachThrough(sum, frame.formA, tolerance), reachThrough(sum, frame.formB, tolerance)];
  const [cutA, cutB] = latticeCuts(sum, frame, tolerance / 10);
  const countA = Math.ceil((cutA * reachA) / Math.PI);
  const countB = Math.ceil((cutB * reachB) / Math.PI);
  const chords = frame.nodes + 40 * Math.max(0, Math.ceil(Math.log2(reachB / frame.sigmaB / 7)));
  return {
    grid: { frame, reachA, reachB, countA, countB, error: 5 * tolerance },
    build: countA * (2 * countB + 1) * nanosecondsPerProduct(sum),
    evaluation: 5 * countA * countB * chords,
  };
}

/** Stands for the variance of a t, in units of its squared scale, where it has none or nearly none. */
export const heavyVariance = 5;
/** Allowed to the far law of heavy tails; scaled to meet the sum where it begins, it does better. */
export function farErrorFor(tolerance: number): number {
  return Math.max(tolerance, 2e-7);
}
/** Directions in which the fall of a characteristic function is looked at. */
const scanned = 24;

function nanosecondsPerProduct({ boxes, arcsines, students, shaped }: PlanarIngredients): number {
  return 25 + 14 * boxes.length + 60 * arcsines.length + 45 * students.length + 200 * shaped.length;
}

function costOf(sum: PlanarIngredients, average: AngleAverage, count: number, nodeAt: (k: number) => number): Cost {
  let angles = 0;
  const step = Math.max(1, count / 32);
  for (let k = 0; k < count; k += step) angles += Math.min(step, count - k) * average.anglesAt(nodeAt(Math.floor(k)));
  return { build: angles * nanosecondsPerProduct(sum), evaluation: 110 * count };
}

function principalVariances([xx, xy, yy]: Covariance2): readonly [smaller: number, larger: number] {
  const spread = Math.hypot(xx - yy, 2 * xy);
  return [Math.max(0, (xx + yy - spread) / 2), (xx + yy + spread) / 2];
}

/** Standard deviations beyond which a sub-Gaussian sum leaves less than `tolerance`. */
function sigmasTo(tolerance: number): number {
  return Math.sqrt(-2 * Math.log(tolerance));
}

/** How far the terms other than t reach in any direction (the widest of some directions lies within half a step of the widest of all). */
function farthestReach(sum: PlanarIngredients, tolerance: number): number {
  let reach = 0;
  for (let k = 0; k < scanned; k += 1) {
    const angle = (Math.PI * k) / scanned;
    reach = Math.max(reach, lightReach(projected(sum, [Math.cos(angle), Math.sin(angle)]), tolerance));
  }
  return reach / Math.cos(Math.PI / (2 * scanned));
}

/** How far the t terms reach in any direction: as `farthestReach`. */
function farthestStudentReach(sum: PlanarIngredients, tolerance: number): number {
  let reach = 0;
  for (let k = 0; k < scanned; k += 1) {
    const angle = (Math.PI * k) / scanned;
    reach = Math.max(reach, studentReach(projected(sum, [Math.cos(angle), Math.sin(angle)]).students, tolerance / 2));
  }
  return reach / Math.cos(Math.PI / (2 * scanned));
}

function reachThrough(sum: PlanarIngredients, form: Vector2, tolerance: number): number {
  const line = projected(sum, form);
  return lightReach(line, tolerance) + studentReach(line.students, tolerance / 2);
}

/** The s beyond which the averaged characteristic function contributes less than `tolerance` to the chance within `radius`. */
function averageCut(sum: PlanarIngredients, covariance: Covariance2, radius: number, tolerance: number): number {
  const [xx, xy, yy] = covariance;
  // The direction of least spread, where φ lives longest, and equal steps from it.
  const least = 0.5 * Math.atan2(2 * xy, xx - yy) + Math.PI / 2;
  const lines = Array.from({ length: scanned }, (_, k) => {
    const angle = least + (Math.PI * k) / scanned;
    return projected(sum, [Math.cos(angle), Math.sin(angle)]);
  });
  // r ∫ J1(rs) φ̄ ds with |J1(x)| below √(2/πx), and ds taken as s: a power of s or more is lost to the fall of φ̄.
  const rest = (s: number) => (lines.reduce((all, line) => all + envelopeAt(line, s), 0) / scanned) * Math.sqrt(radius * s);
  return cutOf(rest, tolerance, 1 / Math.sqrt(principalVariances(covariance)[1]));
}

/** How far φ reaches along either axis of the frequencies of a and b, looked at in directions measured in units of 1/σ. */
function latticeCuts(sum: PlanarIngredients, { formA, formB, sigmaA, sigmaB }: ChordFrame, tolerance: number): readonly [number, number] {
  let cutA = 0;
  let cutB = 0;
  for (let k = 0; k < scanned; k += 1) {
    const a = Math.cos((Math.PI * k) / scanned) / sigmaA;
    const b = Math.sin((Math.PI * k) / scanned) / sigmaB;
    const line = projected(sum, [a * formA[0] + b * formB[0], a * formA[1] + b * formB[1]]);
    const cut = cutOf((s) => envelopeAt(line, s), tolerance, 1);
    cutA = Math.max(cutA, Math.abs(a) * cut);
    cutB = Math.max(cutB, Math.abs(b) * cut);
  }
  return [cutA, cutB];
}

/** The s, upwards from `start`, where a falling envelope comes below `tolerance`; `Infinity` if it takes too long. */
function cutOf(envelope: (s: number) => number, tolerance: number, start: number): number {
  for (let s = 2 * start; s < longestCut * start; s *= 1.2) if (envelope(s) < tolerance) return s;
  return Number.POSITIVE_INFINITY;
}

/** In units of the inverse spread: far beyond what is affordable. */
const longestCut = 1e6;
