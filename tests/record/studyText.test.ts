import { expect, it } from "vitest";
import type { StudyTarget } from "../../lib/decision/studyTargets.ts";
import { plainStudy } from "../../lib/record/plainStudy.ts";
import { studyModel, studyResults } from "../../lib/record/studyResults.ts";
import { studyText } from "../../lib/record/studyText.ts";
import { budgetsOf } from "../../lib/uncertainty/budget.ts";
import { linearDistribution } from "../../lib/uncertainty/linearDistribution.ts";
import { runBlocks } from "../../lib/uncertainty/trials/runTrials.ts";
import type { TrialTally } from "../../lib/uncertainty/trials/trialTally.ts";
import { fromSource, type Uncertain, unary } from "../../lib/uncertainty/uncertain.ts";
import { sourceOf } from "../properties/expressions.ts";

const head = { title: "Study", strategy: "s", view: "thisPart", seed: 1, trials: 0, isSteady: null, supposed: [] } as const;

/** A function of one normal source about 1. */
function target(value: Uncertain, u: number, slope: number, limits?: StudyTarget["limits"]): StudyTarget {
  const linear = linearDistribution(value.value, [{ coefficient: slope, distribution: { shape: "normal", standardDeviation: u } }]);
  return { name: "y", unit: "mm", value, components: [value], budgets: budgetsOf([value]), linear, limits };
}

const x = (u: number) => fromSource(sourceOf("x", 1, u));

function tried(targets: readonly StudyTarget[], blocks: number): TrialTally {
  const steps = [...runBlocks(studyModel(targets, 1), 0, blocks)];
  return steps.at(-1) as TrialTally;
}

it("a study that rests on what is only supposed says so before anything else", () => {
  const results = studyResults([target(x(0.1), 0.1, 1)], 1);
  expect(studyText({ ...head, supposed: ["width half as doubtful"] }, results, "mm")).toMatch(
    /^SUPPOSED FOR THE MOMENT, and not as stated: width half as doubtful\./,
  );
  expect(studyText(head, results, "mm")).not.toContain("SUPPOSED");
});

it("a model that bends too much for a correction gets no number without trials, in the text and as plain data", () => {
  const targets = [target(x(0.3).power(2), 0.3, 2)];
  const results = studyResults(targets, 1);
  expect(studyText(head, results, "mm")).toMatch(/y +- +- +- +- +-\n/);
  expect(studyText(head, results, "mm")).toContain("only trials with a value tell");
  expect(plainStudy(head, results).results[0]).toMatchObject({ isTooCurved: true, mean: null, symmetricInterval: null, within: null });
  const withTrials = plainStudy({ ...head, trials: 4096 }, studyResults(targets, 1, tried(targets, 4))).results[0];
  // E x² = 1 + u² (closed form), within five standard errors of trials with a standard deviation of about 2 u.
  expect(Math.abs((withTrials?.mean ?? 0) - 1.09)).toBeLessThan((5 * 0.62) / 64);
  expect(withTrials?.isTooCurved).toBe(false);
});

// (x + y²/2 with y normal about 0, u = 1): u² = 1 + ½, and 1.225 is more than half a digit beside 1.0 (closed form).
it("the terms of second order are told where they change u, with the sources that make them, and once where they change none", () => {
  const y = fromSource(sourceOf("y", 0, 1));
  const bent = [target(x(1).plus(y.power(2).over(2)), 1, 1)];
  const results = studyResults(bent, 1);
  expect(studyText(head, results, "mm").replaceAll(/\s+/g, " ")).toContain(
    "The terms of second order matter: u with them is 1.2 mm in place of 1.0 mm, most by y alone.",
  );
  expect(plainStudy(head, results).results[0]?.secondOrder[0]).toMatchObject({
    verdict: "matters",
    standardUncertainty: expect.closeTo(Math.sqrt(1.5), 9),
    shiftOfExpectation: expect.closeTo(0.5, 9),
    terms: [{ sources: ["y", "y"], variance: expect.closeTo(0.5, 9) }],
  });
  expect(studyText(head, studyResults([target(x(0.01), 0.01, 1)], 1), "mm").replaceAll(/\s+/g, " ")).toContain(
    "change no standard uncertainty in its two digits",
  );
});

it("points and trials without a value are told with their share", () => {
  // √x for x normal about 1 with u = 0.5 has no value in Φ(-2) = 2.275 % of cases (tables of the normal).
  const targets = [target(unary("squareRoot", x(0.5)), 0.5, 0.5)];
  const corrected = studyResults(targets, 1)[0];
  expect(Math.abs((corrected?.failedShare ?? 0) - 0.02275)).toBeLessThan(0.003);
  const text = studyText({ ...head, trials: 20_480 }, studyResults(targets, 1, tried(targets, 20)), "mm");
  expect(text).toMatch(/in 2\.\d+ % of the trials the model had no value, and they are not in these numbers/);
});

it("a model without a value in any trial has no result, whatever a correction says", () => {
  const targets = [target(x(0.01), 0.01, 1)];
  const tally = tried(targets, 1);
  const [only] = tally.outputs;
  if (only === undefined) throw new Error("no output");
  const nothing = { ...only, counts: new Float64Array(only.counts.length), below: 0, above: 0, failed: 1024 };
  const [result] = studyResults(targets, 1, Object.assign(tally, { outputs: [nothing] }));
  expect(result).toMatchObject({ isTooCurved: true, failedShare: 1, trials: { count: 0, failed: 1024 } });
});

it("no failure seen in the trials is told as just that", () => {
  const targets = [target(x(0.01), 0.01, 1, { lower: 0.9, upper: 1.1 })];
  expect(studyText({ ...head, trials: 1024 }, studyResults(targets, 1, tried(targets, 1)), "mm")).toContain("all trials");
  expect(studyResults(targets, 1, tried(targets, 1))[0]?.within?.doubt).toBeGreaterThanOrEqual(1 / 1024);
});

it("trials that were to go on until they are steady, and are not, say so first", () => {
  const results = studyResults([target(x(0.01), 0.01, 1)], 1);
  expect(studyText({ ...head, trials: 10_240, isSteady: false }, results, "mm")).toContain("NOT STEADY YET");
  expect(studyText({ ...head, trials: 10_240, isSteady: true }, results, "mm")).not.toContain("NOT STEADY");
});
