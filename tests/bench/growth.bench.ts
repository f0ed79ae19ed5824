import type { Source } from "../../lib/uncertainty/source.ts";
import { blockSize } from "../../lib/uncertainty/trials/blockWords.ts";
import { TrialModel } from "../../lib/uncertainty/trials/trialModel.ts";
import { TrialTally } from "../../lib/uncertainty/trials/trialTally.ts";
import { fromSource, sum, type Uncertain } from "../../lib/uncertainty/uncertain.ts";
import type { Benchmark, Side } from "./benchmark.ts";

/** How the time of trials grows, one size at a time; ratios are to the first line. Memory does not grow with trials. */
const growth: readonly Benchmark[] = [
  {
    name: "Trials: growth with trials",
    work: "20 sources, 9 results of 10 sources each and 1 of all",
    sides: [1e4, 1e5, 1e6].map((trials) => sized(trials, 20, 10)),
    rounds: 3,
  },
  {
    name: "Trials: growth with sources",
    work: "1e5 trials, 9 results of 10 sources each and 1 of all",
    sides: [10, 100, 1000].map((sources) => sized(1e5, sources, 10)),
    rounds: 3,
  },
  {
    name: "Trials: growth with results",
    work: "1e5 trials, 60 sources, results of 10 sources each and 1 of all",
    sides: [10, 100, 1000].map((results) => sized(1e5, 60, results)),
    rounds: 3,
  },
];
export default growth;

const perResult = 10;

function sized(trials: number, sourceCount: number, resultCount: number): Side {
  return {
    name: `${trials.toExponential(0)} trials, ${sourceCount} sources, ${resultCount} results`,
    prepare() {
      const model = sumsModel(sourceCount, resultCount);
      const blocks = Math.ceil(trials / blockSize);
      return {
        run() {
          const tally = new TrialTally(model);
          for (let block = 0; block < blocks; block++) tally.add(block, model.runBlock(block));
        },
      };
    },
  };
}

/** Results that each sum up ten sources, and one that sums up all, so that all are drawn. */
function sumsModel(sourceCount: number, resultCount: number): TrialModel {
  const sources = Array.from({ length: sourceCount }, (_, k) => fromSource(sourceNumber(k)));
  const all = sum(sources);
  const outputs = Array.from({ length: resultCount }, (_, k) => ({
    name: `sum ${k}`,
    value: k === 0 ? all : sum(Array.from({ length: perResult }, (_, i) => sources[(k * 7 + i * 3) % sourceCount] as Uncertain)),
    centre: 0,
    scale: Math.sqrt(k === 0 ? sourceCount : perResult),
  }));
  return new TrialModel(outputs, 1);
}

function sourceNumber(k: number): Source {
  return {
    id: `source ${k}`,
    label: `source ${k}`,
    family: "part",
    estimate: 0,
    distribution: { shape: "normal", standardDeviation: 1 },
    degreesOfFreedom: Number.POSITIVE_INFINITY,
    evidence: { kind: "stated" },
  };
}
