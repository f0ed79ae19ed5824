import { numericalTolerance } from "../numericalTolerance.ts";
import { blockSize } from "./blockWords.ts";
import { tallyDistribution } from "./tallyDistribution.ts";
import type { TrialModel } from "./trialModel.ts";
import { momentsOf, TrialTally } from "./trialTally.ts";

/** Runs blocks of trials one after the other and hands the tally out after each, so that a caller can show it, or stop. */
export function* runBlocks(model: TrialModel, from: number, to: number): Generator<TrialTally, TrialTally> {
  const tally = new TrialTally(model);
  for (let block = from; block < to; block++) {
    tally.add(block, model.runBlock(block));
    yield tally;
  }
  return tally;
}

/** How far trials have come that go on until they are enough. */
export interface AdaptiveProgress {
  /** All trials so far. */
  readonly tally: TrialTally;
  /** By output: what the whole batches have reached, and what is wanted; none before the first batch is whole. */
  readonly outputs: readonly AdaptiveOutput[];
  readonly isEnough: boolean;
}

export interface AdaptiveOutput {
  readonly name: string;
  /** δ of the standard uncertainty, in the unit of the result; 0 for a result that does not vary. */
  readonly tolerance: number;
  /** Twice the standard deviation of the averages of mean, standard uncertainty and the ends of the interval, the largest of the four. */
  readonly reached: number;
}

export interface AdaptiveOptions {
  /** Of the coverage interval whose ends must be steady, for example 0.95. */
  readonly probability: number;
  /** Significant digits of the standard uncertainty that must be steady. */
  readonly digits: number;
  /** Trials after which it ends, enough or not. */
  readonly mostTrials: number;
}

/**
 * Trials until the numbers of every result are steady (JCGM 101:2008, 7.9): batches of M trials, and the scatter of the batches' means,
 * standard uncertainties and ends of the probabilistically symmetric interval says how well their averages are known. M is the larger of 10 000
 * and 100/(1 - p), in whole blocks. Hands out progress after every block; ends when twice the standard deviation of every average is
 * below the tolerance of its result.
 */
export function* runUntilSteady(model: TrialModel, options: AdaptiveOptions): Generator<AdaptiveProgress, AdaptiveProgress> {
  const { probability, mostTrials } = options;
  if (!(probability > 0 && probability < 1)) throw new RangeError(`probability: expected above 0 and below 1, got ${probability}`);
  const blocksPerBatch = Math.ceil(Math.max(10_000, Math.ceil(100 / (1 - probability))) / blockSize);
  const tally = new TrialTally(model);
  const batches = model.outputs.map((): number[][] => [[], [], [], []]);
  let progress: AdaptiveProgress = { tally, outputs: [], isEnough: false };
  for (let first = 0; ; first += blocksPerBatch) {
    const batch = new TrialTally(model);
    for (let block = first; block < first + blocksPerBatch; block++) {
      const columns = model.runBlock(block);
      batch.add(block, columns);
      tally.add(block, columns);
      yield progress;
    }
    batch.outputs.forEach((output, k) => {
      const { mean, standardDeviation, count } = momentsOf(output);
      const ends = count > 0 ? tallyDistribution(output).interval(probability, "symmetric") : [Number.NaN, Number.NaN];
      for (const [i, value] of [mean, standardDeviation, ...ends].entries()) batches[k]?.[i]?.push(value);
    });
    progress = progressOf(tally, batches, options.digits);
    if (progress.isEnough || tally.trials + blocksPerBatch * blockSize > mostTrials) return progress;
  }
}

function progressOf(tally: TrialTally, batches: readonly number[][][], digits: number): AdaptiveProgress {
  const outputs = tally.outputs.map((output, k): AdaptiveOutput => {
    const { standardDeviation } = momentsOf(output);
    const reached = Math.max(...(batches[k] as number[][]).map((values) => 2 * deviationOfMean(values)));
    return { name: output.name, tolerance: standardDeviation > 0 ? numericalTolerance(standardDeviation, digits) : 0, reached };
  });
  // A single batch has no scatter to judge by.
  const isEnough = (batches[0]?.[0]?.length ?? 2) > 1 && outputs.every(({ reached, tolerance }) => reached <= tolerance);
  return { tally, outputs, isEnough };
}

function deviationOfMean(values: readonly number[]): number {
  const n = values.length;
  const mean = values.reduce((total, value) => total + value, 0) / n;
  const squares = values.reduce((total, value) => total + (value - mean) ** 2, 0);
  return n > 1 ? Math.sqrt(squares / (n - 1) / n) : Number.POSITIVE_INFINITY;
}
