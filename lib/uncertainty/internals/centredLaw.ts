import type { Distribution } from "../distribution.ts";
import { normalQuantile } from "../special/normalQuantile.ts";
import { completeDistribution } from "./completeDistribution.ts";

/** A distribution symmetric about zero, told by its upper half. */
export interface CentredLaw {
  /** Chance to exceed `z` and density at `z`, for z >= 0. */
  evaluate(z: number): readonly [tail: number, density: number];
  /** The density alone, where that is much cheaper. */
  readonly density?: (z: number) => number;
  /** Largest possible value; `Infinity` if there is none. */
  readonly halfWidth: number;
  /** Where the density is not smooth, for z >= 0, ascending: its ends, jumps and kinks. */
  readonly knots: readonly number[];
  /** The GUM's standard uncertainty. */
  readonly standardDeviation: number;
  /** Whether the density nowhere rises on the way out, so that the shortest interval is the symmetric one. */
  readonly unimodal: boolean;
  /** The z >= 0 exceeded with chance `tail` (0 to ½), where there is a direct formula. */
  readonly tailQuantile?: (tail: number) => number;
  readonly error: number;
  readonly method: string;
}

/** The law moved to `mean`. */
export function distributionAt(mean: number, law: CentredLaw): Distribution {
  // So far out that squares overflow, nothing is left.
  const tailAt = (z: number) => (z > outermost * law.standardDeviation ? 0 : Math.min(0.5, Math.max(0, law.evaluate(z)[0])));
  return completeDistribution(
    {
      mean,
      standardDeviation: law.standardDeviation,
      error: law.error,
      method: law.method,
      density: (y) => Math.max(0, law.evaluate(Math.abs(y - mean))[1]),
      cumulative: (y) => (y < mean ? tailAt(mean - y) : 1 - tailAt(y - mean)),
      quantile(p) {
        const size = tailQuantileOf(law, Math.min(p, 1 - p));
        return p < 0.5 ? mean - size : mean + size;
      },
    },
    law.unimodal,
  );
}

/** In standard deviations. */
const outermost = 1e120;

/** The z >= 0 that the law exceeds with chance `tail`, 0 to ½. */
function tailQuantileOf(law: CentredLaw, tail: number): number {
  if (tail === 0) return law.halfWidth;
  if (tail >= 0.5) return 0;
  return law.tailQuantile ? law.tailQuantile(tail) : searchTail(law, tail);
}

/** Newton's method on ln tail, which is concave for nearly every law here, kept within a shrinking bracket for the others. */
function searchTail(law: CentredLaw, target: number): number {
  let low = 0;
  let high = law.halfWidth;
  let z = Math.min(-normalQuantile(target) * law.standardDeviation, 0.999 * high);
  for (let step = 0; step < mostSteps; step += 1) {
    const [tail, density] = law.evaluate(z);
    if (tail > target) low = z;
    else high = z;
    const newton = tail > 0 && density > 0 ? z + (Math.log(tail / target) * tail) / density : Number.NaN;
    const move = Math.abs(newton - z);
    // Newton doubles the digits: after a step this small the next would be below the rounding.
    if (move <= 1e-8 * z) return newton;
    if (newton > low && newton < high) z = newton;
    else z = high === Number.POSITIVE_INFINITY ? 2 * z : (low + high) / 2;
    if (high < Number.POSITIVE_INFINITY && high - low <= 1e-15 * high) return z;
  }
  return z;
}

/** Bisection alone would need as many for the last bit. */
const mostSteps = 200;
