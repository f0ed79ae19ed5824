import { expect, it } from "vitest";
import { globalRisk } from "../../lib/decision/globalRisk.ts";
import { normalPosterior } from "../../lib/decision/normalPosterior.ts";
import { linearDistribution } from "../../lib/uncertainty/linearDistribution.ts";

const normal = (mean: number, standardDeviation: number) =>
  linearDistribution(mean, [{ coefficient: 1, distribution: { shape: "normal", standardDeviation } }]);

/** Resistors of 1500 Ω ± 0.2 Ω, made with u0 = 0.12 and measured with um = 0.04 (JCGM 106:2012, 9.5, values from memory, recomputed). */
const risks = (guard: number) =>
  globalRisk(normal(1500, 0.12), normal(0, 0.04), { lower: 1499.8, upper: 1500.2 }, { lower: 1499.8 + guard, upper: 1500.2 - guard });

it("j106-resistor-risks: accepted from 1499.82 to 1500.18, the consumer risks 1 % and the producer 7 %", () => {
  const { consumersRisk, producersRisk } = risks(0.02);
  expect(Math.abs(consumersRisk - 0.01)).toBeLessThanOrEqual(0.005);
  expect(Math.abs(producersRisk - 0.07)).toBeLessThanOrEqual(0.005);
});

// Not printed in the document: its equations for the global risks by an independent double integration and by 4 million trials.
it.each([
  ["j106-resistor-w+0.00", 0, 0.01894, 0.03721],
  ["j106-resistor-w+0.04", 0.04, 0.00433, 0.11466],
  ["j106-resistor-w-0.04", -0.04, 0.0449, 0.0071],
])("%s: a guard band of %d gives risks of %d and %d", (_, guard, consumer, producer) => {
  const { consumersRisk, producersRisk } = risks(guard);
  expect(Math.abs(consumersRisk - consumer)).toBeLessThanOrEqual(6e-6);
  expect(Math.abs(producersRisk - producer)).toBeLessThanOrEqual(6e-6);
});

// JCGM 106:2012, annex A, with the resistors' figures (computed, not printed).
it("j106-posterior: before 1500 with 0.12, measured 1500.16 with 0.04, best estimate 1500.144 with 0.0379473", () => {
  const { mean, standardDeviation } = normalPosterior(
    { estimate: 1500, standardUncertainty: 0.12 },
    { estimate: 1500.16, standardUncertainty: 0.04 },
  );
  expect(Math.abs(mean - 1500.144)).toBeLessThanOrEqual(1e-6);
  expect(Math.abs(standardDeviation - 0.0379473)).toBeLessThanOrEqual(1e-6);
});
