import { entryOf, matrixOf, multiply, pseudoInverse, rankOf, singularValues, transpose } from "../base/matrix.ts";
import { standardUncertaintyOf } from "./sourceDistribution.ts";
import { Tape } from "./tape.ts";
import { sum, type Uncertain } from "./uncertain.ts";

/** Results, given that some contrasts are nothing. */
export interface Conditioned {
  /** The results less their regression on the contrasts, in the order given: values like any other, with budgets and trials. */
  readonly values: readonly Uncertain[];
  /** How many of the contrasts can differ from nothing independently. */
  readonly rank: number;
  /** Sum of squares of the contrasts in units of their standard uncertainties, correlation allowed for: chi-square with `rank` degrees of freedom. */
  readonly statistic: number;
}

/** A combination of contrasts whose standard uncertainty is below this share of the largest has none: what is left of it is rounding. */
const negligible = 1e-9;
/** The same where none of them has any, mm. */
const noDoubt = 1e-12;
/** A combination without doubt may be off by as much, mm, or by this share of the largest standard uncertainty, and is still nothing. */
const nothing = 1e-8;
const unseen = 1e-3;

/**
 * The best of what is known twice. A _contrast_ is a combination of evidence whose true value is 0 (two findings of one size, the residual of a
 * redundant touch). Of all estimates that add multiples of contrasts to a result, the one with the smallest variance is
 *
 *     y - Cov(y, d) Var(d)⁺ d
 *
 * and whatever unbiased estimate y one starts from, it is the generalised least-squares one: the best is the one that is uncorrelated with every
 * contrast (A. C. Aitken, Proc. R. Soc. Edinburgh 55 (1935) 42-48; C. R. Rao, Linear Statistical Inference and Its Applications (1965), chapters 4
 * and 5, where Var(d) may be singular: a radius that all touches share is in no contrast). For normal sources it is also the conditional
 * expectation of the result given what was found. To first order in the sources.
 *
 * @param results of any unit
 * @param contrasts mm; their values are how far the evidence disagrees
 * @returns undefined where contrasts without any doubt are other than nothing: evidence that cannot be true together is not combined
 */
export function conditioned(results: readonly Uncertain[], contrasts: readonly Uncertain[]): Conditioned | undefined {
  const tape = new Tape([...results, ...contrasts]);
  const uncertainties = tape.sources.map(({ distribution }) => standardUncertaintyOf(distribution));
  const effectsOf = (first: number, count: number) =>
    matrixOf(count, uncertainties.length, (i, k) => (tape.sensitivities(first + i)[k] as number) * (uncertainties[k] as number));
  const spread = transpose(effectsOf(results.length, contrasts.length));
  const decomposition = singularValues(spread);
  const largest = decomposition.values[0] ?? 0;
  const threshold = Math.max(noDoubt, negligible * largest);
  const rank = rankOf(decomposition, threshold);
  let statistic = 0;
  for (let k = 0; k < contrasts.length; k++) {
    const along = contrasts.reduce((total, { value }, i) => total + value * entryOf(decomposition.right, i, k), 0);
    if (k < rank) statistic += (along / (decomposition.values[k] as number)) ** 2;
    else if (Math.abs(along) > Math.max(nothing, unseen * largest)) return undefined;
  }
  if (rank === 0) return { values: results, rank, statistic };
  const weights = multiply(effectsOf(0, results.length), transpose(pseudoInverse(spread, threshold)));
  const values = results.map((result, i) => result.minus(sum(contrasts.map((contrast, j) => contrast.times(entryOf(weights, i, j))))));
  return { values, rank, statistic };
}
