import type { Distribution } from "../distribution.ts";
import { normalQuantile } from "../special/normalQuantile.ts";
import { completeDistribution } from "./completeDistribution.ts";

/** One side of a distribution with expectation zero, told by sizes z >= 0. */
export interface HalfLaw {
  /** Chance to exceed `z` and density at `z`, for z >= 0. */
  evaluate(z: number): readonly [tail: number, density: number];
  /** The density alone, where that is much cheaper. */
  readonly density?: (z: number) => number;
  /** Largest possible value; `Infinity` if there is none. */
  readonly halfWidth: number;
  /** Where the density is not smooth, for z >= 0, ascending: its ends, jumps and kinks. */
  readonly knots: readonly number[];
  /** The z >= 0 exceeded with chance `tail` (0 to the chance of the whole side), where there is a direct formula. */
  readonly tailQuantile?: (tail: number) => number;
}

/** A distribution with expectation zero, told by its upper half; if it is skewed, the lower half stands beside. */
export interface CentredLaw extends HalfLaw {
  /** Density at halfWidth·sin u times halfWidth·cos u, for a symmetric law whose density is infinite at its ends. */
  readonly sweptDensity?: (u: number) => number;
  /** The law of the deviations below zero, where it is not the same. */
  readonly lowerHalf?: HalfLaw;
  /** The GUM's standard uncertainty. */
  readonly standardDeviation: number;
  /** Whether the density nowhere rises on the way out, so that the shortest interval is the symmetric one. */
  readonly unimodal: boolean;
  readonly error: number;
  readonly method: string;
}

export function lowerHalfOf(law: CentredLaw): HalfLaw {
  return law.lowerHalf ?? law;
}

/** Chance to exceed `z`, and density there, for z of either sign. */
export function lawAt(law: CentredLaw, z: number): readonly [tail: number, density: number] {
  if (z >= 0) return law.evaluate(z);
  const [below, density] = lowerHalfOf(law).evaluate(-z);
  return [1 - below, density];
}

/** The density alone, for z of either sign. */
export function densityAt(law: CentredLaw, z: number): number {
  const half = z < 0 ? lowerHalfOf(law) : law;
  return half.density ? half.density(Math.abs(z)) : half.evaluate(Math.abs(z))[1];
}

/** Where the law is not smooth, on both sides, and 0. */
export function allKnots(law: CentredLaw): number[] {
  return [...lowerHalfOf(law).knots.map((knot) => -knot), 0, ...law.knots];
}

/** The law of the negative of a variable. */
export function reversedLaw(law: CentredLaw): CentredLaw {
  if (!law.lowerHalf) return law;
  const { evaluate, density, halfWidth, knots, tailQuantile, lowerHalf, ...rest } = law;
  const upper: HalfLaw = { evaluate, halfWidth, knots, ...(density ? { density } : {}), ...(tailQuantile ? { tailQuantile } : {}) };
  return { ...rest, ...lowerHalf, lowerHalf: upper };
}

/** Both halves of a law that is known for values of either sign, as tail above and density. */
export function halvesOf(
  evaluate: (z: number) => readonly [tail: number, density: number],
  lower: number,
  upper: number,
): HalfLaw & { readonly lowerHalf: HalfLaw } {
  return {
    evaluate,
    halfWidth: upper,
    knots: [],
    lowerHalf: {
      evaluate(z) {
        const [tail, density] = evaluate(-z);
        return [1 - tail, density];
      },
      halfWidth: lower,
      knots: [],
    },
  };
}

/** The law moved to `mean`. */
export function distributionAt(mean: number, law: CentredLaw): Distribution {
  const lowerHalf = lowerHalfOf(law);
  const most = law.lowerHalf ? 1 : 0.5;
  // So far out that squares overflow, nothing is left.
  const tailAt = (half: HalfLaw, z: number) =>
    z > outermost * law.standardDeviation ? 0 : Math.min(most, Math.max(0, half.evaluate(z)[0]));
  const above = law.lowerHalf ? tailAt(law, 0) : 0.5;
  return completeDistribution(
    {
      mean,
      standardDeviation: law.standardDeviation,
      error: law.error,
      method: law.method,
      density: (y) => Math.max(0, (y < mean ? lowerHalf : law).evaluate(Math.abs(y - mean))[1]),
      cumulative: (y) => (y < mean ? tailAt(lowerHalf, mean - y) : 1 - tailAt(law, y - mean)),
      quantile: (p) =>
        1 - p > above
          ? mean - tailQuantileOf(lowerHalf, p, 1 - above, law.standardDeviation)
          : mean + tailQuantileOf(law, 1 - p, above, law.standardDeviation),
    },
    law.unimodal && !law.lowerHalf,
  );
}

/** In standard deviations. */
const outermost = 1e120;

/** The z >= 0 that a half with the chance `whole` exceeds with chance `tail`. */
function tailQuantileOf(half: HalfLaw, tail: number, whole: number, standardDeviation: number): number {
  if (tail === 0) return half.halfWidth;
  if (tail >= whole) return 0;
  return half.tailQuantile ? half.tailQuantile(tail) : searchTail(half, tail, standardDeviation);
}

/** Newton's method on ln tail, which is concave for nearly every law here, kept within a shrinking bracket for the others. */
function searchTail(half: HalfLaw, target: number, standardDeviation: number): number {
  let low = 0;
  let high = half.halfWidth;
  // Of a skewed law the half may hold more than half of the chance.
  let z = Math.min(Math.max(-normalQuantile(target), nearest) * standardDeviation, 0.999 * high);
  for (let step = 0; step < mostSteps; step += 1) {
    const [tail, density] = half.evaluate(z);
    if (tail > target) low = z;
    else high = z;
    const newton = tail > 0 && density > 0 ? z + (Math.log(tail / target) * tail) / density : Number.NaN;
    const move = Math.abs(newton - z);
    // Newton doubles the digits: after a step this small the next would be below the rounding.
    if (move <= 1e-8 * z && newton >= 0) return newton;
    if (newton > low && newton < high) z = newton;
    else z = high === Number.POSITIVE_INFINITY ? 2 * z : (low + high) / 2;
    if (high < Number.POSITIVE_INFINITY && high - low <= 1e-15 * high) return z;
  }
  return z;
}

/** In standard deviations. */
const nearest = 0.1;
/** Bisection alone would need as many for the last bit. */
const mostSteps = 200;
