import { compensatedSum } from "../base/compensatedSum.ts";
import { centredValues } from "./internals/centredValues.ts";

/** How much readings differ from the one before, beside how much they differ from their mean. */
export interface SuccessiveDifferences {
  /** Σ (xᵢ₊₁ − xᵢ)² / Σ (x − x̄)²: about 2 for independent readings, below for readings that drift, above for readings that alternate. */
  readonly ratio: number;
  /** Standard deviation of the ratio about 2 for independent normal readings, √(4 (n − 2)/(n² − 1)). */
  readonly standardDeviation: number;
}

/**
 * Do repeats drift? Ratio of the mean square successive difference to the variance (J. von Neumann, Ann. Math. Stat. 12 (1941) 367-395).
 * The standard uncertainty of a mean, s/√n, holds for independent readings only (JCGM 100:2008, 4.2.7).
 *
 * @param readings at least three in the order in which they were taken
 * @returns undefined if all readings are equal
 * @throws RangeError for fewer readings or one that is not finite
 */
export function successiveDifferences(readings: readonly number[]): SuccessiveDifferences | undefined {
  const count = readings.length;
  if (count < 3) throw new RangeError(`readings: expected at least 3, got ${count}`);
  const { sumOfSquares } = centredValues(readings, "readings");
  if (sumOfSquares === 0) return undefined;
  const { sum, error } = compensatedSum(readings.slice(1).map((reading, i) => (reading - (readings[i] as number)) ** 2));
  return { ratio: (sum + error) / sumOfSquares, standardDeviation: Math.sqrt((4 * (count - 2)) / (count * count - 1)) };
}
