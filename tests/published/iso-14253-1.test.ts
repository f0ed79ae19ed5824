import { expect, it } from "vitest";
import { decisionLimits } from "../../lib/decision/decisionLimits.ts";
import { iso14253Default } from "../../lib/part/decisionRule.ts";
import { linearDistribution } from "../../lib/uncertainty/linearDistribution.ts";

// ISO 14253-1:2017 (values from memory, recomputed; the standard rounds 1.645 up to 1.65 and 0.8224 up to 0.83).
it("iso14253-083: the default of 95 % makes a guard band of 1.65 u, which is 0.83 U for k = 2", () => {
  const measured = linearDistribution(0, [{ coefficient: 1, distribution: { shape: "normal", standardDeviation: 1 } }]);
  const limits = decisionLimits(iso14253Default, measured, { lower: Number.NEGATIVE_INFINITY, upper: 10 });
  if (!limits.ok) throw new Error(limits.problems[0]?.what);
  const { accepted, notRejected } = limits.value;
  for (const guard of [10 - accepted.upper, notRejected.upper - 10]) {
    expect(Math.abs(guard - 1.65)).toBeLessThanOrEqual(0.0052);
    expect(Math.abs(guard / 2 - 0.83)).toBeLessThanOrEqual(0.0077);
  }
});
