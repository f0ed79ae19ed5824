import { expect, it } from "vitest";
import { describeProblem } from "../../lib/base/outcome.ts";
import { checkStatement } from "../../lib/formula/checkStatement.ts";
import { evaluateStatement } from "../../lib/formula/evaluateStatement.ts";
import { parseStatement } from "../../lib/formula/parseStatement.ts";
import { evidenceInWords } from "../../lib/record/evidenceInWords.ts";
import { budgetOf } from "../../lib/uncertainty/budget.ts";
import { oneWayAnalysisOfSummaries } from "../../lib/uncertainty/oneWayAnalysis.ts";
import type { Evidence } from "../../lib/uncertainty/source.ts";
import { fisherUpperTail } from "../../lib/uncertainty/special/fisherF.ts";
import { fisherQuantile } from "../../lib/uncertainty/special/fisherQuantile.ts";

// JCGM 100:2008, annex H.5, table H.9: a voltage standard read five times on each of ten days, volts and microvolts (values from memory,
// recomputed).
const means = [10.000172, 10.000116, 10.000013, 10.000144, 10.000106, 10.000031, 10.00006, 10.000125, 10.000163, 10.000041];
const deviations = [60, 77, 111, 101, 67, 93, 80, 73, 88, 86];

it("gum-h5-anova: within and between days, F, and the uncertainty of the mean with and without a difference of days (H.5.2)", () => {
  const analysis = oneWayAnalysisOfSummaries(
    means.map((mean, day) => ({ count: 5, mean, standardDeviation: (deviations[day] as number) * 1e-6 })),
  );
  const { between, within, whenGroupsDiffer, whenGroupsAgree } = analysis;
  for (const [quantity, computed, printed, tolerance] of [
    ["mean, V", whenGroupsDiffer.mean, 10.000097, 5e-7],
    ["mean of all, V", whenGroupsAgree.mean, 10.000097, 5e-7],
    ["s of the daily means", 1e6 * whenGroupsDiffer.standardUncertainty * Math.sqrt(10), 57, 0.5],
    ["s_a", 1e6 * Math.sqrt(between.meanSquare), 128, 0.6],
    ["s_b", 1e6 * Math.sqrt(within.meanSquare), 85, 0.5],
    // The Guide prints 2.25, from unrounded deviations of the days.
    ["F", analysis.ratio, 2.25, 0.03],
    ["F at 95 %", fisherQuantile(0.95, 9, 40), 2.12, 0.005],
    ["F at 97.5 %", fisherQuantile(0.975, 9, 40), 2.45, 0.0051],
    ["s_B", 1e6 * analysis.standardDeviationBetween, 43, 0.6],
    ["u, days differ", 1e6 * whenGroupsDiffer.standardUncertainty, 18, 0.5],
    ["u, days do not", 1e6 * whenGroupsAgree.standardUncertainty, 13, 0.5],
  ] as const)
    expect(Math.abs(computed - printed), quantity).toBeLessThanOrEqual(tolerance);
  expect([between.degreesOfFreedom, within.degreesOfFreedom]).toEqual([9, 40]);
  expect([whenGroupsDiffer.degreesOfFreedom, whenGroupsAgree.degreesOfFreedom]).toEqual([9, 49]);
  // Between the two critical values, as the Guide says.
  expect(analysis.chanceOfRatio).toBeLessThan(0.05);
  expect(analysis.chanceOfRatio).toBeGreaterThan(0.025);
  expect(analysis.chanceOfRatio).toBe(fisherUpperTail(analysis.ratio, 9, 40));
});

// The same days typed into one cell: five readings with the printed mean and standard deviation of every day, the days parted by |, in millimetres.
it("gum-h5-anova: readings of ten days in one entry have the mean of the days and their u = 18 µ with 9 degrees of freedom, since F passes 5 %", () => {
  const shape = [-2, -1, 0, 1, 2].map((step) => step / Math.sqrt(2.5));
  const days = means.map((mean, day) => shape.map((step) => (mean + step * (deviations[day] as number) * 1e-6).toFixed(12)).join("; "));
  const parsed = parseStatement(`${days.join(" | ")} mm`);
  const checked = parsed.ok ? checkStatement(parsed.value, new Map()) : parsed;
  const source = { id: "own", label: "own", family: "process", evidence: { kind: "stated" } } as const;
  const evaluated = checked.ok ? evaluateStatement(checked.value, new Map(), source) : checked;
  if (!evaluated.ok) throw new Error(evaluated.problems.map(describeProblem).join(" "));
  const { value, standardUncertainty, sources } = budgetOf(evaluated.value);
  expect(Math.abs(value - 10.000097)).toBeLessThanOrEqual(5e-7);
  expect(Math.abs(1e6 * standardUncertainty - 18)).toBeLessThanOrEqual(0.5);
  expect(sources).toMatchObject([{ degreesOfFreedom: 9, evidence: { kind: "measured", readings: 50, groups: { differ: true } } }]);
  const evidence = sources[0]?.evidence as Evidence;
  expect(Math.abs((evidence.kind === "measured" ? evidence.groups?.within : 0) ?? 0) - 85e-6).toBeLessThanOrEqual(5e-7);
  expect(Math.abs(((evidence.kind === "measured" ? evidence.groups?.between : 0) ?? 0) - 43e-6)).toBeLessThanOrEqual(6e-7);
  // The chance lies between the 2.5 % and 5 % of the two critical values that the Guide prints.
  expect(evidenceInWords(evidence)).toMatch(/^50 readings in 10 groups that differ \(F = 2\.2\d, chance by scatter alone [34]\.\d %\)$/);
});
