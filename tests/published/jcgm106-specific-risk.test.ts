import { expect, it } from "vitest";
import { conformance } from "../../lib/decision/conformance.ts";
import { decisionLimits } from "../../lib/decision/decisionLimits.ts";
import { linearDistribution } from "../../lib/uncertainty/linearDistribution.ts";

// JCGM 106:2012; all values from memory, recomputed.
const normal = (mean: number, standardDeviation: number) =>
  linearDistribution(mean, [{ coefficient: 1, distribution: { shape: "normal", standardDeviation } }]);
const positive = { lower: 0, upper: Number.POSITIVE_INFINITY };

// Table 1: how many standard uncertainties inside one limit a value must lie for a conformance probability.
it.each([
  [0.8, 0.84],
  [0.9, 1.28],
  [0.95, 1.64],
  [0.99, 2.33],
  [0.999, 3.09],
])("j106-table1: a conformance probability of %d wants z = %d", (probability, z) => {
  const limits = decisionLimits({ name: "guarded acceptance", guard: { by: "probability", probability } }, normal(0, 1), positive);
  expect(limits.ok && Math.abs(limits.value.guardBands.lower - z)).toBeLessThanOrEqual(0.0051);
  expect(Math.abs(conformance(normal(z, 1), positive).probability - probability)).toBeLessThanOrEqual(0.0015);
});

// 7.3, bursting strength of a container: limit 490, measured 509.7 with u = 8.6.
it("j106-container: z = 2.3 gives a conformance probability of 0.99", () => {
  expect(Math.abs((509.7 - 490) / 8.6 - 2.3)).toBeLessThanOrEqual(0.05000000500000001);
  const { probability, specificConsumersRisk } = conformance(normal(509.7, 8.6), { lower: 490, upper: Number.POSITIVE_INFINITY });
  expect(Math.abs(probability - 0.99)).toBeLessThanOrEqual(0.005000000500000001);
  expect(specificConsumersRisk).toBeCloseTo(1 - probability, 14);
});

// 7.4, viscosity of an oil: limits 12.5 and 16.3, measured 13.6 with u = 1.8.
it("j106-oil: the conformance probability is 0.66", () => {
  const { probability } = conformance(normal(13.6, 1.8), { lower: 12.5, upper: 16.3 });
  expect(Math.abs(probability - 0.66)).toBeLessThanOrEqual(0.005000000500000001);
});
