import type { Distribution } from "./distribution.ts";
import { type CentredLaw, distributionAt, type HalfLaw } from "./internals/centredLaw.ts";
import { checkSource } from "./internals/checkSource.ts";
import { addSource, noIngredients } from "./internals/ingredients.ts";
import { isVisible } from "./internals/isVisible.ts";
import { linearLaw } from "./internals/linearLaw.ts";
import { pointDistribution } from "./internals/pointDistribution.ts";
import { type SourceDistribution, standardUncertaintyOf } from "./sourceDistribution.ts";

/** One independent source and the sensitivity with which the output follows it. */
export interface LinearTerm {
  readonly coefficient: number;
  readonly distribution: SourceDistribution;
}

/**
 * The exact distribution of mean + Σ coefficientᵢ · Xᵢ with independent sources Xᵢ of expectation zero: what a linear measurement
 * model makes of its inputs, without trials and without the assumption of a normal output (JCGM 101:2008, clause 5.2 calls it the
 * analytical propagation of distributions).
 *
 * Chances carry an absolute error of about 1e-11 (`error` says how much), so quantiles within 5 standard deviations are good
 * to 1e-7 of one. `standardDeviation` is the GUM's combined standard uncertainty, in which a t term counts with its scale
 * (see `standardUncertaintyOf`), not with its own larger standard deviation.
 *
 * Without terms, or with all scales zero, the result is a point: `cumulative` steps from 0 to 1 at the mean (and is 1 there),
 * `density` is Infinity there and 0 elsewhere, every quantile and both interval ends are the mean.
 *
 * @throws RangeError for a coefficient, mean or parameter that is not finite or out of its range
 */
export function linearDistribution(mean: number, terms: readonly LinearTerm[]): Distribution {
  if (!Number.isFinite(mean)) throw new RangeError(`mean: expected finite, got ${mean}`);
  let scale = 0;
  for (const { coefficient, distribution } of terms) {
    if (!Number.isFinite(coefficient)) throw new RangeError(`coefficient: expected finite, got ${coefficient}`);
    checkSource(distribution);
    scale = Math.max(scale, Math.abs(coefficient) * standardUncertaintyOf(distribution));
  }
  if (scale === 0) return pointDistribution(mean);
  if (scale === Number.POSITIVE_INFINITY)
    throw new RangeError("coefficient: expected a finite product with the standard uncertainty, got Infinity");
  let variance = 0;
  for (const { coefficient, distribution } of terms) variance += ((coefficient / scale) * standardUncertaintyOf(distribution)) ** 2;
  return distributionAt(mean, scaledLaw({ ...unitLaw(terms, scale), standardDeviation: Math.sqrt(variance) }, scale));
}

/** The law of the sum in units of `scale`, its largest standard uncertainty, so that squares neither overflow nor vanish. */
function unitLaw(terms: readonly LinearTerm[], scale: number): CentredLaw {
  // Where an arcsine ends its density is infinite, and the chance moves by the square root of a small displacement.
  const smallest = terms.some(({ distribution }) => distribution.shape === "arcsine") ? 1e-30 : 1e-15;
  const sum = noIngredients();
  for (const { coefficient, distribution } of terms) {
    const factor = coefficient / scale;
    if (isVisible(distribution, Math.abs(factor), smallest)) addSource(sum, distribution, factor);
  }
  return linearLaw(sum);
}

function scaledLaw(law: CentredLaw, scale: number): CentredLaw {
  const { lowerHalf, unimodal, error, method } = law;
  return {
    ...scaledHalf(law, scale),
    ...(lowerHalf ? { lowerHalf: scaledHalf(lowerHalf, scale) } : {}),
    standardDeviation: law.standardDeviation * scale,
    unimodal,
    error,
    method,
  };
}

function scaledHalf(half: HalfLaw, scale: number): HalfLaw {
  const { tailQuantile } = half;
  return {
    evaluate(z) {
      const [tail, density] = half.evaluate(z / scale);
      return [tail, density / scale];
    },
    halfWidth: half.halfWidth * scale,
    knots: half.knots.map((knot) => knot * scale),
    ...(tailQuantile ? { tailQuantile: (tail: number) => tailQuantile(tail) * scale } : {}),
  };
}
