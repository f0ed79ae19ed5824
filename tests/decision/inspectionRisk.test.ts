import fc from "fast-check";
import { describe, expect, it, vi } from "vitest";
import { success } from "../../lib/base/outcome.ts";
import { roundDecisionLimits } from "../../lib/decision/decisionLimits.ts";
import { type InspectionRisk, inspectionRisk } from "../../lib/decision/inspectionRisk.ts";
import { judgeCharacteristic } from "../../lib/decision/judgeCharacteristic.ts";
import { verdict } from "../../lib/decision/verdict.ts";
import type { DecisionRule } from "../../lib/part/decisionRule.ts";
import type { Stack } from "../../lib/tolerance/stack.ts";
import { combination, distanceStack, link, positionStack } from "../properties/stacks.ts";

vi.setConfig({ testTimeout: 60_000 });

const normal = (id: string, standardDeviation: number) => link(id, { shape: "normal", standardDeviation });
const byProbability = (name: Exclude<DecisionRule["name"], "simple acceptance">): DecisionRule => ({
  name,
  guard: { by: "probability", probability: 0.95 },
});
const byMultiple = (multiple: number): DecisionRule => ({ name: "guarded acceptance", guard: { by: "expanded uncertainty", multiple } });
const simple: DecisionRule = { name: "simple acceptance" };

function riskOf(stack: Stack, rule: DecisionRule, standardUncertainty: number): InspectionRisk {
  const found = inspectionRisk(stack, rule, standardUncertainty);
  if (!found.ok) throw new Error("expected a risk");
  return found.value;
}

describe("inspectionRisk, in a round zone of 0.1 whose points scatter by 0.02 along both axes, measured with u = 0.004", () => {
  const stack = positionStack(combination(0, [[1, normal("x", 0.02)]]), combination(0, [[1, normal("y", 0.02)]]), 0.1);

  // Rayleigh's density against Rice's distribution function, integrated by scipy 1.17.1: scipy.stats.rayleigh, rice, integrate.quad.
  it.each([
    ["simple acceptance", simple, 0.1, 0.006504292326186597, 0.012115640630833658],
    ["guarded acceptance, 95 %", byProbability("guarded acceptance"), 0.0864969827293354, 0.0003214712485467593, 0.06198258580676883],
    ["guarded acceptance, w = U", byMultiple(1), 0.084, 0.00014480832080891574, 0.07621642242275269],
  ] as const)("%s", (_, rule, accepted, consumersRisk, producersRisk) => {
    const { limits, global } = riskOf(stack, rule, 0.004);
    expect(limits.accepted.upper).toBeCloseTo(accepted, 9);
    expect(global.consumersRisk).toBeCloseTo(consumersRisk, 8);
    expect(global.producersRisk).toBeCloseTo(producersRisk, 8);
  });

  it("at the limit of acceptance the rule's own chance of not conforming is left", () => {
    expect(riskOf(stack, byProbability("guarded acceptance"), 0.004).largestSpecificConsumersRisk).toBeCloseTo(0.05, 8);
    // 1 - rice.cdf(12.5, 10.5) by scipy.
    expect(riskOf(stack, byMultiple(1), 0.004).largestSpecificConsumersRisk).toBeCloseTo(0.025211536794934486, 9);
  });

  it("guarded rejection widens to where 5 % is left", () => {
    // scipy: rice.cdf(12.5, a / 0.004) = 0.05.
    expect(riskOf(stack, byProbability("guarded rejection"), 0.004).limits.accepted.upper).toBeCloseTo(0.11285750232336489, 9);
  });

  it("leaves nothing to accept where the measuring is too poor", () => {
    const found = inspectionRisk(stack, byProbability("guarded acceptance"), 0.03);
    expect(found.ok ? "" : found.problems[0]?.what).toBe("the guard bands leave nothing between the limits that could be accepted");
  });
});

it("inspectionRisk is not told at maximum material, where what conforms depends on the size of each part", () => {
  const { bonus: _, ...stack } = positionStack(combination(0, [[1, normal("x", 0.02)]]), combination(0, [[1, normal("y", 0.02)]]), 0.1);
  const grows = { ...stack, isRound: true, bonus: { range: { lower: 0, upper: 0.1 }, virtualCondition: 9.9, chance: 0.99 } } as Stack;
  const found = inspectionRisk(grows, simple, 0.004);
  expect(found.ok ? "" : found.problems[0]?.what).toContain("at maximum material each part has a zone of its own");
});

it("inspectionRisk, of a distance, by 95 % and both limits", () => {
  // scipy 1.17.1: process N(0.004, 0.012), limits ±0.03, u = 0.005; acceptance by brentq, risks by integrate.quad.
  const { limits, global } = riskOf(
    distanceStack(combination(0.004, [[1, normal("d", 0.012)]]), -0.03, 0.03),
    byProbability("guarded acceptance"),
    0.005,
  );
  expect(limits.accepted.upper).toBeCloseTo(0.021775731865312276, 9);
  expect(global.consumersRisk).toBeCloseTo(0.00028615236005465695, 9);
  expect(global.producersRisk).toBeCloseTo(0.09230612677077113, 9);
});

describe("a guard band in a round zone", () => {
  const size = fc.integer({ min: 1, max: 30 }).map((value) => value / 1000);
  const offset = fc.integer({ min: -60, max: 60 }).map((value) => value / 1000);
  const rules = fc.constantFrom(...(["guarded acceptance", "guarded rejection", "proof either way"] as const).map(byProbability));

  it("judges the same by the chance and by the acceptance limits along the direction in which the point is off", () => {
    fc.assert(
      fc.property(size, size, offset, offset, rules, (u, v, x, y, rule) => {
        const shared = link("s", { shape: "rectangular", halfWidth: v });
        const stack = positionStack(
          combination(x, [
            [1, normal("x", u)],
            [0.5, shared],
          ]),
          combination(y, [
            [1, normal("y", v)],
            [0.5, shared],
          ]),
          0.1,
        );
        const judged = judgeCharacteristic(stack, success(rule));
        if (!judged.ok || !judged.value.limits.ok) return;
        const { accepted, notRejected } = judged.value.limits.value;
        // Not within a rounding of a limit, where either verdict is right.
        fc.pre([accepted.upper, notRejected.upper].every((limit) => Math.abs(limit - stack.deviation) > 1e-6));
        expect(judged.value.verdict).toBe(verdict(stack.deviation, judged.value.limits.value));
      }),
      { numRuns: 60 },
    );
  });

  it("by a multiple of U is as wide as U of the diameter along that direction", () => {
    // u along (3, 4)/5 is √(0.6²·0.01² + 0.8²·0.02²), of the diameter twice that; U = 2 u.
    const stack = positionStack(combination(0.003, [[1, normal("x", 0.01)]]), combination(0.004, [[1, normal("y", 0.02)]]), 0.2);
    const judged = judgeCharacteristic(stack, success(byMultiple(1)));
    expect(judged.ok && judged.value.limits.ok && judged.value.limits.value.guardBands.upper).toBeCloseTo(4 * Math.hypot(0.006, 0.016), 12);
  });

  it("is nothing where nothing is in doubt", () => {
    const found = roundDecisionLimits(
      byProbability("proof either way"),
      { chanceIfOff: (d) => (d <= 0.1 ? 1 : 0), standardUncertainty: 0 },
      0.1,
    );
    expect(found.ok && found.value.guardBands.upper).toBe(0);
    expect(found.ok && found.value.notRejected.upper).toBe(0.1);
  });
});
