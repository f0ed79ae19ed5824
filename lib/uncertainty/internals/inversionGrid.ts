import { type FarTail, farTailOf } from "./farTail.ts";
import { gradedCount, gradedCut, gradedRange } from "./gradedNodes.ts";
import { envelopeAt, type Ingredients, type ShapedIngredient } from "./ingredients.ts";
import { studentReach } from "./studentReach.ts";

/** Where a characteristic function is sampled, and for which values the sum over the samples holds. */
export interface InversionGrid {
  /** Half-integer multiples of `step` up to the truncation, or nodes that crowd geometrically towards zero. */
  readonly kind: "uniform" | "graded";
  /** Number of samples. */
  readonly count: number;
  /** Node spacing of a uniform grid. */
  readonly step: number;
  /** Largest |z| that the sum holds for; beyond it `farTail` takes over. */
  readonly range: number;
  /** Chance beyond `range` by the far law of the t terms; undefined where bounded and normal terms leave none. */
  readonly farTail: FarTail | undefined;
  /** Estimated bound of the absolute error of a chance. */
  readonly error: number;
}

/**
 * Chooses the grid for inverting the characteristic function of a sum.
 *
 * Three errors are kept below `tolerance` where at most `mostNodes` nodes allow it, and stated where they do not:
 * what is cut off beyond the last node, what other periods of the sampled sum fold in (aliasing: the chance beyond
 * 2π/step - range), and the far law beyond `range`. Without t terms all is settled by the moment-generating function
 * (see `lightReach`), without shaped terms by the sub-Gaussian bound
 * P(Z > y) <= exp(-y²/2u²), which holds for normal, rectangular and arcsine terms alike (their moment-generating functions stay
 * below the normal's of the same variance: compare the power series of sinh(x)/x and I0(x) with that of the exponential).
 *
 * @param leastRange where the far law may take over; it is an asymptotic one, and from where it holds only the sum itself can tell
 */
export function inversionGrid(sum: Ingredients, tolerance: number, mostNodes: number, leastRange = 0): InversionGrid {
  const reach = lightReach(sum, tolerance);
  const cut = truncation(sum, tolerance);
  if (sum.students.length === 0) {
    const step = Math.PI / reach;
    const count = Math.max(1, Math.ceil(cut.at / step));
    const error = count > mostNodes ? truncationError(sum, mostNodes * step) : cut.error;
    return { kind: "uniform", count: Math.min(count, mostNodes), step, range: reach, farTail: undefined, error: error + tolerance };
  }
  const farTail = farTailOf(sum);
  const fold = reach + studentReach(sum.students, tolerance);
  // Beyond this the far law is thought good enough (but no nearer than what the light terms reach).
  let range = Math.max(2 * reach, farTail.smallestScale, leastRange);
  while (farTail.error(range) > farTolerance && range < fold) range *= 1.25;
  const uniformStep = (2 * Math.PI) / (range + fold);
  const uniformCount = Math.ceil(cut.at / uniformStep);
  const affordable = gradedRange(cut.at, mostNodes, smallestPhase);
  const graded = Math.max(2 * reach, Math.min(range, affordable));
  const count = Math.min(mostNodes, gradedCount(graded, cut.at, smallestPhase));
  // A uniform grid is summed by rotation, several times faster to evaluate than sines at arbitrary nodes.
  if (uniformCount <= Math.min(mostNodes, 3 * count)) {
    const error = cut.error + tolerance + farTail.error(range);
    return { kind: "uniform", count: uniformCount, step: uniformStep, range, farTail, error };
  }
  const cutError = graded > affordable ? truncationError(sum, gradedCut(graded, count, smallestPhase)) : cut.error;
  return { kind: "graded", count, step: 0, range: graded, farTail, error: cutError + tolerance + farTail.error(graded) };
}

/** Allowed to the far law; scaled to meet the sum where it begins, it does better. */
export const farTolerance = 5e-11;
/** First node of a graded grid, times the range: all below it contributes no more than this. */
export const smallestPhase = 1e-14;

/** Beyond this, to either side, the terms other than t carry less than `tolerance`. */
export function lightReach(sum: Ingredients, tolerance: number): number {
  const { normalVariance, boxes, arcsines, shaped } = sum;
  const factor = Math.sqrt(-2 * Math.log(tolerance));
  let bound = 0;
  let variance = normalVariance;
  for (const half of boxes) {
    bound += half;
    variance += (half * half) / 3;
  }
  for (const half of arcsines) {
    bound += half;
    variance += (half * half) / 2;
  }
  for (const { scale, shape } of shaped) bound += Math.abs(scale) * Math.max(shape.lower, shape.upper);
  const whole = shaped.length > 0 ? exponentialBound(variance, shaped, -Math.log(tolerance)) : factor * Math.sqrt(variance);
  return Math.min(whole, bound + factor * Math.sqrt(normalVariance));
}

/**
 * The reach at which P(Z > y) <= e^(-ty) E e^(tZ) (Chernoff's bound, Annals of Mathematical Statistics 23 (1952) 493-507) is e^-`logarithm`, to the
 * worse side: any t gives a bound, the least of some is taken.
 */
function exponentialBound(variance: number, shaped: readonly ShapedIngredient[], logarithm: number): number {
  const total = shaped.reduce((all, { scale, shape }) => all + scale * scale * shape.variance, variance);
  const normal = Math.sqrt((2 * logarithm) / total);
  let reach = 0;
  for (const direction of [1, -1]) {
    let least = Number.POSITIVE_INFINITY;
    for (let k = -chernoffSteps; k <= chernoffSteps; k += 1) {
      const t = normal * 2 ** (k / 4);
      let exponent = (variance * t * t) / 2;
      for (const { scale, shape } of shaped) exponent += shape.logMoment(direction * scale * t);
      least = Math.min(least, (exponent + logarithm) / t);
    }
    reach = Math.max(reach, least);
  }
  return reach;
}

/** Quarters of an octave about the best t of a normal. */
const chernoffSteps = 24;

/** The s from which the rest of the inversion integral is below `tolerance`, and what that rest is. */
function truncation(sum: Ingredients, tolerance: number): { at: number; error: number } {
  let high = 1 / largestScale(sum);
  while (truncationError(sum, high) > tolerance && high < Number.MAX_VALUE / 4) high *= 2;
  let low = high / 2;
  for (let step = 0; step < 4; step += 1) {
    const middle = (low + high) / 2;
    if (truncationError(sum, middle) > tolerance) low = middle;
    else high = middle;
  }
  return { at: high, error: tolerance };
}

/** (1/π) ∫ envelope/s beyond s, octave by octave: the envelope falls from one to the next ever faster. */
function truncationError(sum: Ingredients, s: number): number {
  const here = envelopeAt(sum, s);
  if (here === 0) return 0;
  return Math.min(1, (here * Math.LN2) / (Math.PI * (1 - envelopeAt(sum, 2 * s) / here)));
}

function largestScale({ normalVariance, boxes, arcsines, students, shaped }: Ingredients): number {
  let largest = Math.sqrt(normalVariance);
  for (const half of boxes) largest = Math.max(largest, half);
  for (const half of arcsines) largest = Math.max(largest, half);
  for (const { scale } of students) largest = Math.max(largest, scale);
  for (const { scale } of shaped) largest = Math.max(largest, Math.abs(scale));
  return largest;
}
