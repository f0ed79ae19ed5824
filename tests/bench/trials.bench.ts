import { blockSize } from "../../lib/uncertainty/trials/blockWords.ts";
import { TrialModel } from "../../lib/uncertainty/trials/trialModel.ts";
import { TrialTally } from "../../lib/uncertainty/trials/trialTally.ts";
import type { Benchmark } from "./benchmark.ts";
import { descriptionOf, type ModelName, trialOutputsOf } from "./models.ts";
import { numpySide } from "./numpySide.ts";
import { processorTime } from "./processorTime.ts";

/** Trials of a whole model with moments and distribution of every result: blocks and counts here, whole arrays and a sort in numpy. One thread each. */
function trialsOf(name: ModelName, trials: number): Benchmark {
  const description = descriptionOf(name);
  const blocks = Math.round(trials / blockSize);
  return {
    name: `Trials of model ${name}`,
    work: `${trials.toExponential(0)} trials, ${description.sources.length} sources, ${description.results.length} results; processor time`,
    sides: [
      { name: "blocks", prepare: () => processorTime(() => runOnce(description, blocks, true)) },
      { name: "blocks, without WebAssembly", prepare: () => processorTime(() => runOnce(description, blocks, false)) },
      { name: "numpy, vectorised", prepare: () => numpySide({ do: "trials", model: description, trials }) },
    ],
  };
}

/** From the description on, as a caller would: only the tables of the distributions are kept from one run to the next. */
function runOnce(description: ReturnType<typeof descriptionOf>, blocks: number, usesWorkspace: boolean): TrialTally {
  const model = new TrialModel(trialOutputsOf(description), 1, { usesWorkspace });
  const tally = new TrialTally(model);
  for (let block = 0; block < blocks; block++) tally.add(block, model.runBlock(block));
  return tally;
}

const trials: readonly Benchmark[] = [trialsOf("L", 1e6), trialsOf("N", 1e6)];
export default trials;
