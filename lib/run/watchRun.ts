import { meanOf } from "../uncertainty/repeats.ts";
import { studentUpperTail } from "../uncertainty/special/studentT.ts";
import { fitStraightLine } from "../uncertainty/straightLine.ts";
import { cumulativeSums } from "./cumulativeSums.ts";
import { adjustedBelow, neighbourCorrelation } from "./neighbours.ts";

/** What a run of parts says of a feature that was measured on each. */
export interface RunOfParts {
  readonly count: number;
  readonly mean: number;
  /** σ of one part by the mean of how much each differs from the one before: a slow drift does not widen it. */
  readonly standardDeviation: number;
  /** mean ± 3 σ. */
  readonly limits: { readonly lower: number; readonly upper: number };
  /** Places in the run, from 0, of parts beyond the limits. */
  readonly beyond: readonly number[];
  /** Longest stretch of parts on one side of the mean, by its first place and its length. */
  readonly longestStretch: { readonly from: number; readonly length: number };
  /** Where the mean seems to have moved for good, by cumulative sums; undefined where they show no change. */
  readonly moved: MovedMean | undefined;
  /** Change per part, and the chance of one as steep by scatter alone. */
  readonly drift: { readonly perPart: number; readonly standardUncertainty: number; readonly chance: number };
  /** Correlation of each part with the one before: strongly negative where somebody adjusts by every part. */
  readonly neighbours: number;
  /** Whether it looks as if every part had been adjusted for (see adjustedBelow). */
  readonly looksAdjusted: boolean;
  /** What is left of the setup's error when all of the mean is corrected: σ/√n (F. E. Grubbs 1954). */
  readonly setupErrorLeft: number;
}

/**
 * A chart of individual values (W. A. Shewhart 1931; NIST/SEMATECH e-Handbook 6.3.2.2): limits at three standard deviations, σ = mean moving
 * range / d₂ with d₂ of two values.
 *
 * @param values at least five, in the order of making, mm
 * @throws RangeError for fewer, or a value that is not finite
 */
export function watchRun(values: readonly number[]): RunOfParts {
  const count = values.length;
  if (count < fewestForAChart) throw new RangeError(`values: expected at least ${fewestForAChart}, got ${count}`);
  if (!values.every(Number.isFinite)) throw new RangeError("values: expected finite numbers");
  const mean = meanOf(values);
  const standardDeviation = meanOf(values.slice(1).map((value, i) => Math.abs(value - (values[i] as number)))) / meanRangeOfTwo;
  const limits = { lower: mean - 3 * standardDeviation, upper: mean + 3 * standardDeviation };
  const line = fitStraightLine(values.map((value, at) => ({ at, value })));
  const neighbours = neighbourCorrelation(values);
  return {
    count,
    mean,
    standardDeviation,
    limits,
    beyond: values.flatMap((value, i) => (value < limits.lower || value > limits.upper ? [i] : [])),
    longestStretch: longestStretch(values.map((value) => Math.sign(value - mean))),
    moved: movedMean(values, mean, standardDeviation),
    drift: {
      perPart: line.slope,
      standardUncertainty: line.standardUncertaintyOfSlope,
      chance: line.slope === 0 ? 1 : 2 * studentUpperTail(Math.abs(line.slope / line.standardUncertaintyOfSlope), line.degreesOfFreedom),
    },
    neighbours,
    looksAdjusted: neighbours < adjustedBelow(count),
    setupErrorLeft: standardDeviation / Math.sqrt(count),
  };
}

/**
 * A change of one standard deviation is looked for, and sums of six are more than scatter: about the mean of the run itself they are reached by chance in one
 * run of a hundred with 30 parts, in one of forty with 50 (simulated, tests).
 */
const halfOfTheChange = 0.5;
const beyondScatter = 6;

/** A change of the mean for good: the place of the first part after it, from 0, and by how much the parts from there on lie above those before. */
export interface MovedMean {
  readonly from: number;
  readonly by: number;
}

/** Sums about the mean of the whole run tell whether there is a change; where their plain sum is farthest from 0 is the likeliest place of one. */
function movedMean(values: readonly number[], mean: number, standardDeviation: number): MovedMean | undefined {
  if (!(standardDeviation > 0)) return undefined;
  const [allowance, threshold] = [standardDeviation * halfOfTheChange, standardDeviation * beyondScatter];
  if (cumulativeSums(values, mean, allowance, threshold).seenAt === undefined) return undefined;
  let [sum, farthest, from] = [0, 0, 0];
  for (const [i, value] of values.slice(0, -1).entries()) {
    sum += value - mean;
    if (Math.abs(sum) > farthest) [farthest, from] = [Math.abs(sum), i + 1];
  }
  return { from, by: meanOf(values.slice(from)) - meanOf(values.slice(0, from)) };
}

/** Fewer say next to nothing of their scatter. */
export const fewestForAChart = 5;
/** d₂ of two values. */
const meanRangeOfTwo = 2 / Math.sqrt(Math.PI);

/** A stretch of so many on one side comes by chance once in 128 (common practice: eight in a row). */
export const suspiciousStretch = 8;

function longestStretch(sides: readonly number[]): RunOfParts["longestStretch"] {
  let best = { from: 0, length: 0 };
  let from = 0;
  for (let i = 0; i < sides.length; i++) {
    if (sides[i] === 0) {
      from = i + 1;
      continue;
    }
    if (i > from && sides[i] !== sides[i - 1]) from = i;
    if (i - from + 1 > best.length) best = { from, length: i - from + 1 };
  }
  return best;
}
