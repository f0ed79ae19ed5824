import { studentUpperTail } from "../uncertainty/special/studentT.ts";
import { fitStraightLine } from "../uncertainty/straightLine.ts";
import { cumulativeSums, type MovedMean } from "./cumulativeSums.ts";
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
  /** Where cumulative sums about the mean see a lasting change of one σ; undefined where they see none. */
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
    moved:
      standardDeviation > 0
        ? cumulativeSums(values, mean, standardDeviation * halfOfTheChange, standardDeviation * beyondScatter).moved
        : undefined,
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

/** A change of one standard deviation is looked for, and sums of five are more than scatter: about one false alarm in 465 parts (NIST/SEMATECH e-Handbook 6.3.2.3). */
const halfOfTheChange = 0.5;
const beyondScatter = 5;

/** Fewer say next to nothing of their scatter. */
export const fewestForAChart = 5;
/** d₂ of two values. */
const meanRangeOfTwo = 2 / Math.sqrt(Math.PI);

/** A stretch of so many on one side comes by chance once in 128 (common practice: eight in a row). */
export const suspiciousStretch = 8;

function meanOf(values: readonly number[]): number {
  const first = values[0] as number;
  return first + values.reduce((total, value) => total + (value - first), 0) / values.length;
}

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
