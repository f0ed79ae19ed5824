import type { ChanceWithError } from "./distribution.ts";
import { checkSource } from "./internals/checkSource.ts";
import { cumulantsOf } from "./internals/cumulants.ts";
import { addSource, angleAt, characteristicAt, isSkewed, noIngredients } from "./internals/ingredients.ts";
import { lightReach } from "./internals/inversionGrid.ts";
import { isNormal, omittedEffect, tailOf, wideningOf } from "./internals/nearNormal.ts";
import { type LinearTerm, linearDistribution } from "./linearDistribution.ts";
import { standardUncertaintyOf } from "./sourceDistribution.ts";

/** How many standard deviations the sum is taken to reach. */
const reachDeviations = 7.5;
/** Chance of a heavy tail beyond the box. */
const cutTail = 1e-11;
/** Exponent at which the normal part has silenced the characteristic function: e^-24 is 4e-11. */
const silence = 24;
/** What taking one small source by its first cumulants may change. */
const mostOmitted = 1e-11;
/** More samples than this, and the whole distribution is the better way. */
const mostSamples = 200;
/** Images and silence together: bounded by comparison with linearDistribution over random sums (tests). */
const seriesError = 2e-10;

/**
 * The chance that mean + Σ coefficientᵢ Xᵢ lies from `lower` to `upper`: one number of `linearDistribution`, at a small part of its
 * cost, for tables of many characteristics.
 *
 * The density is a Fourier series on a box that holds the interval and all of the sum that matters; its coefficients are samples of the
 * characteristic function, which the normal part silences soon, and each is integrated over the interval. Small sources enter by
 * their cumulants together, in one polynomial. Where there is no normal part, or tails are too heavy for a box, the whole
 * distribution answers.
 *
 * @throws RangeError as linearDistribution, and for limits that are not numbers
 */
export function linearChance(mean: number, terms: readonly LinearTerm[], lower: number, upper: number): ChanceWithError {
  if (Number.isNaN(lower) || Number.isNaN(upper)) throw new RangeError(`limits: expected numbers, got ${lower} to ${upper}`);
  return seriesChance(mean, terms, lower, upper) ?? wholeChance(mean, terms, lower, upper);
}

function wholeChance(mean: number, terms: readonly LinearTerm[], lower: number, upper: number): ChanceWithError {
  const distribution = linearDistribution(mean, terms);
  return { chance: distribution.chanceWithin(lower, upper), error: 2 * distribution.error };
}

function seriesChance(given: number, unscaled: readonly LinearTerm[], least: number, most: number): ChanceWithError | undefined {
  let scale = 0;
  for (const { coefficient, distribution } of unscaled) {
    checkSource(distribution);
    scale = Math.max(scale, Math.abs(coefficient) * standardUncertaintyOf(distribution));
  }
  if (!(scale > 0 && scale < Number.POSITIVE_INFINITY && Number.isFinite(given))) return undefined;
  // In units of the largest standard uncertainty, so that powers neither overflow nor vanish.
  const terms = unscaled.map(({ coefficient, distribution }): LinearTerm => ({ coefficient: coefficient / scale, distribution }));
  // Limits from the mean, subtracted first: where it is many uncertainties from zero, the rounding of ratios would show.
  const [lower, upper] = [(least - given) / scale, (most - given) / scale];
  let normal = 0;
  let variance = 0;
  for (const { coefficient, distribution } of terms) {
    const own = (coefficient * standardUncertaintyOf(distribution)) ** 2;
    variance += own * wideningOf(distribution);
    if (isNormal(distribution)) normal += own;
  }
  if (!(normal > 0 && variance < Number.POSITIVE_INFINITY)) return undefined;

  const shaped = noIngredients();
  let [second, fourth, sixth] = [normal, 0, 0];
  let error = seriesError;
  let reach = reachDeviations * Math.sqrt(variance);
  const spread = Math.sqrt(variance);
  for (const { coefficient, distribution } of terms) {
    if (coefficient === 0 || isNormal(distribution)) continue;
    const square = coefficient * coefficient;
    const cumulants = cumulantsOf(distribution);
    const omitted = cumulants ? omittedEffect(cumulants, square / normal) : 1;
    if (cumulants && omitted <= mostOmitted) {
      second += cumulants.second * square;
      fourth += cumulants.fourth * square ** 2;
      sixth += cumulants.sixth * square ** 3;
      error += omitted;
      continue;
    }
    addSource(shaped, distribution, coefficient);
    if (distribution.shape !== "scaledT") continue;
    reach = Math.max(reach, Math.abs(coefficient) * distribution.scale * tailOf(distribution.degreesOfFreedom, cutTail) + 3 * spread);
    error += cutTail;
  }

  const skewed = isSkewed(shaped);
  // Skewed sources reach farther to one side than a normal one with their variance.
  if (skewed) reach = Math.max(reach, lightReach({ ...shaped, normalVariance: second }, cutTail));

  // Beyond the reach there is nothing: limits far away are brought near.
  const from = Math.max(lower, -reach);
  const to = Math.min(upper, reach);
  if (!(from < to)) return { chance: 0, error };
  // The images of the sum in the neighbouring boxes must not reach the interval.
  const box = Math.max(Math.max(Math.abs(from), Math.abs(to)) + reach, to - from);
  const step = (2 * Math.PI) / box;
  const count = Math.ceil(Math.sqrt((2 * silence) / second) / step);
  if (!(count <= mostSamples)) return undefined;
  let total = to - from;
  for (let k = 1; k <= count; k++) {
    const s = k * step;
    const square = s * s;
    const exponent = square * (-second / 2 + square * (fourth / 24 - (square * sixth) / 720));
    const angle = skewed ? angleAt(shaped, s) : 0;
    total += (2 * Math.exp(exponent) * characteristicAt(shaped, s) * (Math.sin(s * to - angle) - Math.sin(s * from - angle))) / s;
  }
  return { chance: Math.min(1, Math.max(0, total / box)), error };
}
