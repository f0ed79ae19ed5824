import type { SourceDistribution } from "../sourceDistribution.ts";
import { studentQuantile } from "../special/studentT.ts";
import type { Cumulants } from "./cumulants.ts";

/** Whether the distribution is a normal one, so that its characteristic function is told by its variance alone. */
export function isNormal(distribution: SourceDistribution): boolean {
  return (
    distribution.shape === "normal" || (distribution.shape === "scaledT" && distribution.degreesOfFreedom === Number.POSITIVE_INFINITY)
  );
}

/**
 * What it may change in a chance to tell a source, beside a normal one, by its cumulants of order 2, 4 and 6 alone, as
 * exp(-κ₂s²/2 + κ₄s⁴/24 - κ₆s⁶/720).
 *
 * @param ratio square of the sensitivity over the variance of the normal part; in the plane c·N⁻¹c
 */
export function omittedEffect(cumulants: Cumulants, ratio: number): number {
  return eighthOrder(cumulants) * ratio ** 4;
}

/**
 * |κ₈|/8! times the largest integral over an interval of the eighth derivative of the normal density, ∫ He₈(x) φ(x) dx = 28.36; within a disc
 * or an ellipse it is less, as every chord of it is an interval.
 */
export function eighthOrder({ eighth }: Cumulants): number {
  return (28.36 / 40320) * Math.abs(eighth);
}

/**
 * Variance over the square of the standard uncertainty: ν/(ν - 2) for a t, and 5 where it has none or nearly none; what is missing then is in its
 * tail, which is looked at by itself.
 */
export function wideningOf(distribution: SourceDistribution): number {
  if (distribution.shape !== "scaledT" || distribution.degreesOfFreedom === Number.POSITIVE_INFINITY) return 1;
  return distribution.degreesOfFreedom > 2.5 ? distribution.degreesOfFreedom / (distribution.degreesOfFreedom - 2) : 5;
}

/** The value that a standard t exceeds with the given chance. */
export function tailOf(degreesOfFreedom: number, chance: number): number {
  const key = `${degreesOfFreedom} ${chance}`;
  const known = tails.get(key);
  if (known !== undefined) return known;
  const tail = -studentQuantile(chance, degreesOfFreedom);
  if (tails.size >= mostTails) tails.clear();
  tails.set(key, tail);
  return tail;
}

/** A memory of pure values: it changes no result, only the time. */
const tails = new Map<string, number>();
const mostTails = 200;
