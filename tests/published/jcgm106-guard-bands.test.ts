import { expect, it } from "vitest";
import { decisionLimits } from "../../lib/decision/decisionLimits.ts";
import type { DecisionRule } from "../../lib/part/decisionRule.ts";
import { linearDistribution } from "../../lib/uncertainty/linearDistribution.ts";

// JCGM 106:2012, 8.3.3, example (value from memory, recomputed): speed limit 100 km/h, u(v) = 0.02 v, guarded rejection with 99.9 %.
it("j106-speed: what is fined begins at 107 km/h", () => {
  const rule: DecisionRule = { name: "guarded rejection", guard: { by: "probability", probability: 0.999 } };
  // The uncertainty grows with the speed, so the threshold is that which its own uncertainty gives.
  let threshold = 100;
  for (let step = 0; step < 20; step += 1) {
    const measured = linearDistribution(threshold, [
      { coefficient: 1, distribution: { shape: "normal", standardDeviation: 0.02 * threshold } },
    ]);
    const limits = decisionLimits(rule, measured, { lower: Number.NEGATIVE_INFINITY, upper: 100 });
    if (!limits.ok) throw new Error(limits.problems[0]?.what);
    threshold = limits.value.accepted.upper;
  }
  expect(Math.abs(threshold - 107.0)).toBeLessThanOrEqual(0.50000005);
});
