import { expect, it } from "vitest";
import { judgeCharacteristic } from "../../lib/decision/judgeCharacteristic.ts";
import { plainResults } from "../../lib/record/plainResults.ts";
import { summaryText } from "../../lib/record/summaryText.ts";
import { evaluateJob, type Job } from "../documents/openJob.ts";

/**
 * A face touched once with a pin of radius 3 mm and u = 0.01 mm, and a coordinate cut here that should lie 20 mm from it: its deviation is 0
 * with u = 0.01 mm, normal.
 */
function oneCoordinate(decision: Job | undefined, tolerance = "±0.02"): Job {
  return {
    format: "datumbook",
    version: 1,
    unit: "mm",
    part: {
      elements: [
        { id: "end", kind: "face", outward: "-X", datum: "A" },
        { id: "step", kind: "face", outward: "+X", made: "here", x: "20" },
      ],
      characteristics: [{ id: "length", kind: "coordinate", of: "step", axis: "X", tolerance }],
    },
    tools: [{ id: "pin", kind: "tool or pin", radius: "3", radiusUncertainty: "0.01", scatter: "0" }],
    touches: [{ id: "end", element: "end", travelling: "+X", tool: "pin", readings: "10" }],
    machine: { offsetStep: "0" },
    strategies: [{ id: "end", touches: ["end"] }],
    chosen: "end",
    ...(decision && { decision }),
  };
}

function judged(decision: Job | undefined, tolerance?: string) {
  const { strategies, setup } = evaluateJob(oneCoordinate(decision, tolerance));
  const strategy = strategies[0]?.evaluation;
  const stack = strategy?.ok ? strategy.value.thisPart.stacks[0] : undefined;
  if (!stack?.ok) throw new Error("expected a stack");
  return judgeCharacteristic(stack.value, setup.decision);
}

it("judgeCharacteristic(a document without a rule) accepts what lies within its tolerance", () => {
  const found = judged(undefined);
  // 2Φ(2) - 1 = 0.954 499 736 (scipy.stats.norm.cdf).
  expect(found).toMatchObject({
    ok: true,
    value: {
      verdict: "accepted",
      conformanceProbability: expect.closeTo(0.954499736, 8),
      limits: { value: { guardBands: { lower: 0, upper: 0 } } },
    },
  });
});

it("judgeCharacteristic(guarded acceptance, 95 %) accepts at 95.45 %, and 96 % does not leave anything", () => {
  expect(judged({ rule: "guarded acceptance", conformanceProbability: "95 %" })).toMatchObject({ value: { verdict: "accepted" } });
  const none = judged({ rule: "guarded acceptance", conformanceProbability: "0.96" });
  expect(none.ok ? "" : none.problems[0]).toMatchObject({
    at: "part.characteristics.length",
    what: "the guard bands leave nothing between the limits that could be accepted",
  });
});

it("judgeCharacteristic(by tolerance and rule) rejects, or proves neither", () => {
  // The deviation is 0.005 below +0.005 ... +0.1, with u = 0.01: inside with 31 % (Φ(-0.5) = 0.3085).
  const tolerance = "+0.1 +0.005";
  expect(judged({ rule: "simple acceptance" }, tolerance)).toMatchObject({
    value: { verdict: "rejected", conformanceProbability: expect.closeTo(0.30853754, 7) },
  });
  expect(judged({ rule: "guarded acceptance" }, tolerance)).toMatchObject({ value: { verdict: "rejected" } });
  expect(judged({ rule: "guarded rejection" }, tolerance)).toMatchObject({ value: { verdict: "accepted" } });
  expect(judged({ rule: "proof either way" }, tolerance)).toMatchObject({ value: { verdict: "neither" } });
});

it.each(["ninety", "95 % of it", "100 %", "49 %", "95"])(
  "judgeCharacteristic(a probability of %s) decides nothing, and the entry is told",
  (text) => {
    const evaluation = evaluateJob(oneCoordinate({ rule: "guarded acceptance", conformanceProbability: text }));
    expect(evaluation.problems).toContainEqual(expect.objectContaining({ at: "decision.conformanceProbability", got: text }));
    expect(judged({ rule: "guarded acceptance", conformanceProbability: text }).ok).toBe(false);
  },
);

it("plainResults(evaluation) and summaryText(evaluation) tell the verdict, the chance and the acceptance limits", () => {
  const evaluation = evaluateJob(oneCoordinate({ rule: "proof either way" }, "±0.1"));
  const results = JSON.parse(JSON.stringify(plainResults(evaluation)));
  // 1.644 853 627 u from Φ(z) = 0.95 (scipy.stats.norm.ppf).
  expect(results.strategies[0].thisPart.characteristics[0].decision).toMatchObject({
    verdict: "accepted",
    limits: {
      accepted: { lower: expect.closeTo(-0.08355146, 7), upper: expect.closeTo(0.08355146, 7) },
      guardBands: { upper: expect.closeTo(0.01644854, 7) },
    },
  });
  expect(results.strategies[0].batch.characteristics[0].decision).toBeUndefined();
  expect(results.decision).toEqual({ name: "proof either way", guard: { by: "probability", probability: 0.95 } });
  expect(summaryText(evaluation).replaceAll(/\s+/g, " ")).toContain(
    '"length" would be accepted by proof either way: conformance probability above 99.99 %, accepted from -0.0836 to 0.0836, guard bands of 0.0164.',
  );
});

it("a guard band stated by its width, and the risks of inspecting the batch, are told as JSON and in words", () => {
  const evaluation = evaluateJob(oneCoordinate({ rule: "guarded acceptance", guardBand: "1", inspection: "5 um" }));
  const results = JSON.parse(JSON.stringify(plainResults(evaluation)));
  const { thisPart, batch } = results.strategies[0];
  // w = 2 u: nothing is left of ±0.02 for u = 0.01, the middle alone; of the measuring, u = 0.005, it leaves ±0.01.
  expect(thisPart.characteristics[0].decision.limits.accepted.upper).toBeCloseTo(0, 9);
  const { limits, global } = batch.characteristics[0].inspection;
  expect(limits.accepted.upper).toBeCloseTo(0.01, 12);
  // Process N(0, 0.01), measured with N(0, 0.005), limits ±0.02, accepted ±0.01: integrals by scipy 1.17.1.
  expect(global.consumersRisk).toBeCloseTo(0.00033508928406801564, 9);
  expect(global.producersRisk).toBeCloseTo(0.32592819491040714, 9);
  expect(summaryText(evaluation).replaceAll(/\s+/g, " ")).toContain("is accepted from -0.0100 to 0.0100 mm");
});

it.each([
  [{ guardBand: "1", conformanceProbability: "95 %" }, "decision.guardBand", "a guard band is stated twice"],
  [{ guardBand: "-1" }, "decision.guardBand", "no guard band is so wide"],
  [{ guardBand: "wide" }, "decision.guardBand", ""],
  [{ inspection: "0" }, "decision.inspection", "nothing is measured without any doubt"],
  [{ inspection: "-1 um" }, "decision.inspection", "this cannot be negative"],
])("%o is refused at its place", (decision, at, what) => {
  const { problems } = evaluateJob(oneCoordinate({ rule: "guarded acceptance", ...decision }));
  expect(problems).toContainEqual(expect.objectContaining({ at, what: expect.stringContaining(what) }));
});
