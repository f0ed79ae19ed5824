import { normalQuantile } from "../uncertainty/special/normalQuantile.ts";

/** r₁, the correlation of each part of a run with the one before; 0 where all are alike. */
export function neighbourCorrelation(values: readonly number[]): number {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const from = values.map((value) => value - mean);
  const square = from.reduce((sum, each) => sum + each * each, 0);
  return square === 0 ? 0 : from.slice(1).reduce((sum, each, i) => sum + each * (from[i] as number), 0) / square;
}

/** Chance that a run which nobody has touched is called adjusted, from both ends of its scatter. */
export const adjustedByChance = 0.01;
/** Common practice, no source. */
const mostNegative = -0.3;

/**
 * Below this correlation a run looks as if every part had been adjusted for, which makes neighbours alternate. The correlation of n independent values
 * scatters by about 1/√n about -1/n, because the mean is taken from the same parts (M. S. Bartlett, J. R. Stat. Soc. Suppl. 8 (1946) 27;
 * NIST/SEMATECH e-Handbook, 1.3.3.1; Kendall's bias, value from memory), so that few parts ask for more of it.
 *
 * @param times how many runs are looked at, all of which together may err with that chance (Bonferroni)
 */
export function adjustedBelow(count: number, times = 1): number {
  return Math.min(mostNegative, -1 / count + normalQuantile(adjustedByChance / 2 / times) / Math.sqrt(count));
}
