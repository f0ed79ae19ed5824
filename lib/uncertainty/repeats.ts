import { compensatedSum } from "../base/compensatedSum.ts";
import { centredValues, centreOf } from "./internals/centredValues.ts";

/** Several readings of one quantity, in short (JCGM 100, 4.2). */
export interface RepeatSummary {
  readonly count: number;
  readonly mean: number;
  /** Experimental standard deviation of one value, with n − 1 (JCGM 100:2008, 4.2.2); undefined for a single value. */
  readonly standardDeviation: number | undefined;
  /** Of the mean, s/√n (JCGM 100:2008, 4.2.3); undefined for a single value. */
  readonly standardUncertaintyOfMean: number | undefined;
  /** n − 1. */
  readonly degreesOfFreedom: number;
  /** Largest less smallest. */
  readonly range: number;
}

/**
 * Mean and scatter of repeated values, all in one unit.
 *
 * Two passes over deviations from the first value, with sums that carry their
 * rounding error along and the mean kept as a double and its remainder:
 * readings of 412.607 that differ in the last decimal lose nothing to their size.
 *
 * @throws RangeError if there is no value or one is not finite
 */
export function summariseRepeats(values: readonly number[]): RepeatSummary {
  const { mean, sumOfSquares } = centredValues(values);
  const count = values.length;
  const degreesOfFreedom = count - 1;
  const range = largest(values) - smallest(values);
  if (count === 1) return { count, mean, standardDeviation: undefined, standardUncertaintyOfMean: undefined, degreesOfFreedom, range };
  const standardDeviation = Math.sqrt(sumOfSquares / degreesOfFreedom);
  return { count, mean, standardDeviation, standardUncertaintyOfMean: standardDeviation / Math.sqrt(count), degreesOfFreedom, range };
}

/** The mean alone, to the same digit. @throws RangeError if there is no value or one is not finite */
export function meanOf(values: readonly number[]): number {
  return centreOf(values).mean;
}

export interface PooledScatter {
  readonly standardDeviation: number;
  readonly degreesOfFreedom: number;
}

/**
 * Scatter of one value from several groups that share it but not their mean:
 * s_p² = Σ νᵢ sᵢ² / Σ νᵢ (JCGM 100:2008, 4.2.4 and H.3.6). Groups of one value or
 * none tell nothing and count for nothing.
 *
 * @returns undefined if no group has two values
 * @throws RangeError if a value is not finite
 */
export function pooledStandardDeviation(groups: readonly (readonly number[])[]): PooledScatter | undefined {
  const telling = groups.filter((group) => group.length > 0).map(summariseRepeats);
  const degreesOfFreedom = telling.reduce((sum, group) => sum + group.degreesOfFreedom, 0);
  if (degreesOfFreedom === 0) return undefined;
  const sumOfSquares = compensatedSum(telling.map((group) => group.degreesOfFreedom * (group.standardDeviation ?? 0) ** 2));
  return { standardDeviation: Math.sqrt(sumOfSquares.sum / degreesOfFreedom), degreesOfFreedom };
}

/** Not `Math.max(...values)`, which runs out of stack at some hundred thousand values. */
function largest(values: readonly number[]): number {
  return values.reduce((a, b) => Math.max(a, b));
}

function smallest(values: readonly number[]): number {
  return values.reduce((a, b) => Math.min(a, b));
}
