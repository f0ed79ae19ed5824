import type { Distribution } from "../../lib/uncertainty/distribution.ts";
import { type LinearTerm, linearDistribution } from "../../lib/uncertainty/linearDistribution.ts";
import { Tape } from "../../lib/uncertainty/tape.ts";
import { tallyDistribution } from "../../lib/uncertainty/trials/tallyDistribution.ts";
import { TrialModel } from "../../lib/uncertainty/trials/trialModel.ts";
import { type OutputTally, TrialTally } from "../../lib/uncertainty/trials/trialTally.ts";
import type { Uncertain } from "../../lib/uncertainty/uncertain.ts";
import type { Benchmark } from "./benchmark.ts";
import { descriptionOf, resultsOf, trialOutputsOf } from "./models.ts";

const description = descriptionOf("L");
/** One million trials. */
const blocks = 977;
const repeats = 20;
const probabilities = [0.975, 0.99865];
/** Chance beyond the upper limit that the last answer is about. */
const rare = 1e-4;

/** Two quantiles and a rare chance of a linear model, by inversion and by trials; the first says how far off the second is. */
const exact: Benchmark = {
  name: "Exact distribution of model L against trials",
  work: `97.5 % and 99.865 % quantiles, and a chance of ${1e6 * rare} ppm; wanted: 0.1 ms a distribution`,
  sides: [
    { name: `linearDistribution, ${repeats} times`, prepare: exactSide },
    { name: "a million trials, once", prepare: trialSide },
  ],
};
export default exact;

interface Answers {
  readonly quantiles: readonly number[];
  readonly beyond: number;
}

/** The linear model, as the tape of an edit has it: what makes its distribution. */
function stackMaker(): () => Distribution {
  const value = resultsOf(description).get("stack") as Uncertain;
  const tape = new Tape([value]);
  const sensitivities = tape.sensitivities(0);
  const terms = tape.sources.map(({ distribution }, i): LinearTerm => ({ coefficient: sensitivities[i] as number, distribution }));
  return () => linearDistribution(value.value, terms);
}

function answersOf({ quantile, cumulative }: Distribution, limit: number): Answers {
  return { quantiles: probabilities.map(quantile), beyond: 1 - cumulative(limit) };
}

function exactSide() {
  const stack = stackMaker();
  const { error, quantile } = stack();
  const limit = quantile(1 - rare);
  return {
    run() {
      for (let k = 0; k < repeats; k++) answersOf(stack(), limit);
    },
    note: () => `error of a chance at most ${error.toExponential(1)}`,
  };
}

function trialSide() {
  const truth = stackMaker()();
  const limit = truth.quantile(1 - rare);
  const expected = answersOf(truth, limit);
  const off: Answers[] = [];
  return {
    run() {
      const model = new TrialModel(trialOutputsOf(description), off.length);
      const tally = new TrialTally(model);
      for (let block = 0; block < blocks; block++) tally.add(block, model.runBlock(block));
      const found = answersOf(tallyDistribution(tally.outputs[0] as OutputTally), limit);
      off.push({
        quantiles: found.quantiles.map((value, k) => (value - (expected.quantiles[k] as number)) / truth.standardDeviation),
        beyond: found.beyond / expected.beyond - 1,
      });
    },
    note() {
      const typical = (part: (answers: Answers) => number) =>
        Math.sqrt(off.reduce((total, each) => total + part(each) ** 2, 0) / off.length);
      const [middle, far] = probabilities.map((_, k) => typical(({ quantiles }) => quantiles[k] as number).toExponential(1));
      return `off by ${middle} and ${far} standard deviations, the chance by ${(100 * typical(({ beyond }) => beyond)).toPrecision(2)} % (root mean square)`;
    },
  };
}
