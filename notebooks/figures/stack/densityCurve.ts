import type { Distribution } from "../../../lib/uncertainty/distribution.ts";

/** One point of a density as it is drawn. */
export interface DensityPoint {
  readonly at: number;
  readonly density: number;
}

/** The chance left out at either end of what is drawn. */
const leftOut = 1e-5;
const steps = 96;

/**
 * Points of a density between two values: evenly spaced, with some at equal
 * chances so that a narrow peak is not missed. Empty where all the chance sits in
 * one point, or all of it lies elsewhere.
 */
export function densityCurve(distribution: Distribution, from: number, to: number): DensityPoint[] {
  if (distribution.standardDeviation === 0) return [];
  const lower = Math.max(from, distribution.quantile(leftOut));
  const upper = Math.min(to, distribution.quantile(1 - leftOut));
  if (!(upper > lower)) return [];
  const even = Array.from({ length: steps + 1 }, (_, i) => lower + ((upper - lower) * i) / steps);
  const width = distribution.standardDeviation;
  const near = [-3, -2, -1.5, -1, -0.5, 0, 0.5, 1, 1.5, 2, 3].map((times) => distribution.mean + times * width);
  const wanted = (upper - lower) / steps > width / 4 ? [...even, ...near.filter((at) => at > lower && at < upper)] : even;
  return wanted
    .sort((a, b) => a - b)
    .map((at) => ({ at, density: Math.max(0, distribution.density(at)) }))
    .filter(({ density }) => Number.isFinite(density));
}
