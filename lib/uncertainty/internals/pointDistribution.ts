import type { Distribution } from "../distribution.ts";

/** All the chance in one point. */
export function pointDistribution(at: number): Distribution {
  return {
    mean: at,
    standardDeviation: 0,
    error: 0,
    method: "point",
    density: (y) => (y === at ? Number.POSITIVE_INFINITY : 0),
    cumulative: (y) => (y >= at ? 1 : 0),
    quantile(p) {
      if (!(p >= 0 && p <= 1)) throw new RangeError(`p: expected 0 to 1, got ${p}`);
      return at;
    },
    interval(probability) {
      if (!(probability > 0 && probability < 1)) throw new RangeError(`probability: expected above 0 and below 1, got ${probability}`);
      return [at, at];
    },
    chanceWithin: (lower, upper) => (lower <= at && at <= upper ? 1 : 0),
  };
}
