import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { linearDistribution } from "../../lib/uncertainty/linearDistribution.ts";
import { blockSize } from "../../lib/uncertainty/trials/blockWords.ts";
import { tallyDistribution } from "../../lib/uncertainty/trials/tallyDistribution.ts";
import { TrialModel } from "../../lib/uncertainty/trials/trialModel.ts";
import { momentsOf, TrialTally } from "../../lib/uncertainty/trials/trialTally.ts";
import { descriptionOf, type ModelName, trialOutputsOf } from "./models.ts";

interface Told {
  readonly mean: number;
  readonly standardDeviation: number;
  readonly kurtosis: number;
  readonly quantiles: readonly (readonly [probability: number, value: number])[];
}

/** From numpy's generator and laws: tests/reference/trialModels.py. */
const numpy: { readonly trials: number; readonly models: Readonly<Record<ModelName, Readonly<Record<string, Told>>>> } = JSON.parse(
  readFileSync(new URL("../reference/trialModels.json", import.meta.url), "utf8"),
);
const blocks = 98;
const trials = blocks * blockSize;
/** Standard errors by which two sides may differ. */
const most = 5;
/** Of a mean or a chance whose single trial has the standard deviation 1, where both sides are trials. */
const scatter = Math.sqrt(1 / trials + 1 / numpy.trials);

describe.each(["L", "N", "N2"] as const)("model %s: trials and numpy agree within 5 standard errors", (name) => {
  const model = new TrialModel(trialOutputsOf(descriptionOf(name)), 20);
  const tally = new TrialTally(model);
  for (let block = 0; block < blocks; block++) tally.add(block, model.runBlock(block));

  it.each(tally.outputs.map((output) => [output.name, output] as const))("%s", (result, output) => {
    const { mean, standardDeviation, kurtosis, quantiles } = numpy.models[name][result] as Told;
    const moments = momentsOf(output);
    expect(output.failed).toBe(0);
    expect(Math.abs(moments.mean - mean) / standardDeviation).toBeLessThan(most * scatter);
    // Var(s) = σ² (kurtosis - 1) / 4n for large n (M. Kendall, A. Stuart, The Advanced Theory of Statistics 1, 10.5).
    expect(Math.abs(moments.standardDeviation / standardDeviation - 1)).toBeLessThan(most * scatter * Math.sqrt((kurtosis - 1) / 4));
    const { cumulative } = tallyDistribution(output);
    for (const [probability, value] of quantiles)
      expect(Math.abs(cumulative(value) - probability)).toBeLessThan(most * scatter * Math.sqrt(probability * (1 - probability)));
  });
});

it("model L: the exact distribution and numpy agree within 5 standard errors of its trials", () => {
  const { sources } = descriptionOf("L");
  // The coefficients of the formula, once more: sign and size with which each source enters.
  const coefficients = [1, -1, -1.2, 1, 1, -1, 0.5, -1, 0.8, 1, 1, -1];
  const mean = sources.reduce((total, { estimate }, i) => total + (coefficients[i] as number) * estimate, 0);
  const exact = linearDistribution(
    mean,
    sources.map(({ distribution }, i) => ({ coefficient: coefficients[i] as number, distribution })),
  );
  for (const [probability, value] of numpy.models.L["stack"]?.quantiles ?? []) {
    const standardError = Math.sqrt((probability * (1 - probability)) / numpy.trials);
    expect(Math.abs(exact.cumulative(value) - probability)).toBeLessThan(most * standardError);
  }
});
