import type { Interval } from "../../lib/decision/conformance.ts";
import type { Distribution } from "../../lib/uncertainty/distribution.ts";
import { linearDistribution } from "../../lib/uncertainty/linearDistribution.ts";
import type { SourceDistribution } from "../../lib/uncertainty/sourceDistribution.ts";

/** A distribution as tests/reference/conformity.json describes it. */
export interface Described {
  readonly mean: number;
  readonly distribution: SourceDistribution;
}

export function distributionOf({ mean, distribution }: Described): Distribution {
  return linearDistribution(mean, [{ coefficient: 1, distribution }]);
}

export function normal(mean: number, standardDeviation: number): Distribution {
  return distributionOf({ mean, distribution: { shape: "normal", standardDeviation } });
}

/** Limits as the reference has them: null where there is none. */
export interface DescribedLimits {
  readonly lower: number | null;
  readonly upper: number | null;
}

export function intervalOf({ lower, upper }: DescribedLimits): Interval {
  return { lower: lower ?? Number.NEGATIVE_INFINITY, upper: upper ?? Number.POSITIVE_INFINITY };
}
