import type { Problem } from "../base/outcome.ts";
import { farthestReading } from "../uncertainty/farthestReading.ts";
import { normalQuantile } from "../uncertainty/special/normalQuantile.ts";
import { successiveDifferences } from "../uncertainty/successiveDifferences.ts";

/** Chance at which repeats that are in order are called suspicious, of either kind (common practice, no source): a touch in a hundred. */
const significance = 0.01;
/** Fewer repeats cannot be told from chance at that significance; and for fewer in a row the ratio of differences is not near its normal. */
const fewest = { alone: 4, drifting: 8 };
/** So many steps of the display are its own coarseness, and tell nothing of a reading. */
const coarse = 2;

/**
 * Whether one of several readings does not belong to the others (F. E. Grubbs), or all of them drift (J. von Neumann): then the mean's s/√n does not hold
 * (JCGM 100:2008, 4.2.7). Nothing is struck out.
 *
 * @param readings in the order in which they were taken, mm
 * @param step by which readings come, mm; 0 where it is not known, and the least difference of two readings stands for it
 */
export function suspiciousRepeats(readings: readonly number[], step: number): Omit<Problem, "at">[] {
  if (readings.length < fewest.alone) return [];
  const coarseness = coarse * (step > 0 ? step : leastDifference(readings));
  return [...farthest(readings, coarseness), ...drift(readings, coarseness)];
}

function farthest(readings: readonly number[], coarseness: number): Omit<Problem, "at">[] {
  const { index, distance, critical, isSuspect } = farthestReading(readings, significance);
  const others = readings.filter((_, i) => i !== index);
  const reading = readings[index] as number;
  const gap = Math.min(...others.map((other) => Math.abs(other - reading)));
  if (!isSuspect || gap <= coarseness) return [];
  return [
    {
      what: `reading ${index + 1} of ${readings.length} lies ${distance.toFixed(2)} standard deviations from the mean of all, more than the ${critical.toFixed(2)} that the farthest of so many passes once in a hundred (Grubbs)`,
      remedy: "look for a chip, a slip or another touch before it is kept or taken out, and note why",
    },
  ];
}

function drift(readings: readonly number[], coarseness: number): Omit<Problem, "at">[] {
  const found = readings.length < fewest.drifting ? undefined : successiveDifferences(readings);
  const range = Math.max(...readings) - Math.min(...readings);
  if (found === undefined || range <= coarseness) return [];
  if (found.ratio >= 2 + normalQuantile(significance) * found.standardDeviation) return [];
  return [
    {
      what: `these ${readings.length} readings drift: the mean square of their steps is ${found.ratio.toFixed(2)} of their variance, where independent readings have about 2 (von Neumann)`,
      remedy: "look for what moves or warms: the doubt of their mean takes them as independent (JCGM 100, 4.2.7)",
    },
  ];
}

function leastDifference(readings: readonly number[]): number {
  const sorted = [...new Set(readings)].sort((a, b) => a - b);
  return Math.min(Number.POSITIVE_INFINITY, ...sorted.slice(1).map((value, i) => value - (sorted[i] as number)));
}
