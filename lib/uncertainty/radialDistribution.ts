// A passing stand-in (normal approximation) so that the rest can run; the exact one replaces this file.
import type { Distribution } from "./distribution.ts";
import { normalDiscChance } from "./normalDiscChance.ts";
import { type SourceDistribution, standardUncertaintyOf } from "./sourceDistribution.ts";

export function radialDistribution(
  mean: readonly [number, number],
  terms: readonly { readonly coefficient: readonly [number, number]; readonly distribution: SourceDistribution }[],
): Distribution {
  let xx = 0;
  let xy = 0;
  let yy = 0;
  for (const { coefficient: [a, b], distribution } of terms) {
    const u = standardUncertaintyOf(distribution);
    xx += (a * u) ** 2;
    xy += a * b * u * u;
    yy += (b * u) ** 2;
  }
  const sd = Math.sqrt(xx + yy);
  const reach = Math.hypot(...mean) + 12 * sd;
  const cumulative = (r: number) => (r <= 0 ? 0 : normalDiscChance(mean, [xx, xy, yy], r));
  const quantile = (p: number) => {
    let lo = 0;
    let hi = reach;
    for (let i = 0; i < 60; i++) {
      const mid = (lo + hi) / 2;
      if (cumulative(mid) < p) lo = mid;
      else hi = mid;
    }
    return (lo + hi) / 2;
  };
  return {
    mean: Math.hypot(...mean),
    standardDeviation: sd,
    density: (r) => (cumulative(r + sd * 1e-3) - cumulative(r - sd * 1e-3)) / (sd * 2e-3),
    cumulative,
    quantile,
    interval: (p) => [quantile((1 - p) / 2), quantile((1 + p) / 2)] as const,
    chanceWithin: (a, b) => cumulative(b) - cumulative(a),
    error: 1e-2,
    method: "normal approximation",
  } as unknown as Distribution;
}
