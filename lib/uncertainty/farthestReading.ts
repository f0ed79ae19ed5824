import { centredValues } from "./internals/centredValues.ts";
import { studentQuantile } from "./special/studentT.ts";

/** The reading that lies farthest from the mean of all. */
export interface FarthestReading {
  /** Its place among the readings. */
  readonly index: number;
  /** Its distance from the mean in standard deviations of the readings (n − 1), itself among them. */
  readonly distance: number;
  /** The distance that the farthest of so many normal readings passes with chance `significance`, on either side. */
  readonly critical: number;
  /** Whether it lies beyond: a reason to look for a cause, not to strike it out. */
  readonly isSuspect: boolean;
}

/**
 * Does one of the repeats not belong to the others (F. E. Grubbs, Technometrics 11 (1969) 1-21)?
 *
 * @param readings at least three; readings that are all equal have no suspect
 * @param significance above 0 and below 1; 0.05 when left out (common practice, no source)
 * @throws RangeError for fewer readings, one that is not finite, or a significance out of range
 */
export function farthestReading(readings: readonly number[], significance = 0.05): FarthestReading {
  const critical = farthestCritical(readings.length, significance / 2);
  const { deviations, sumOfSquares } = centredValues(readings, "readings");
  const index = deviations.reduce((best, deviation, i) => (Math.abs(deviation) > Math.abs(deviations[best] as number) ? i : best), 0);
  const standardDeviation = Math.sqrt(sumOfSquares / (readings.length - 1));
  const distance = standardDeviation > 0 ? Math.abs(deviations[index] as number) / standardDeviation : 0;
  return { index, distance, critical, isSuspect: distance > critical };
}

/**
 * The distance in standard deviations that the highest of so many normal readings passes with chance `significance`, from
 * t = t(1 − α/n; n − 2): (n − 1)/√n · √(t² / (n − 2 + t²)) (F. E. Grubbs and G. Beck, Technometrics 14 (1972) 847-854): exact where no two
 * readings can lie so far out, else a little too far, never too near. For the farthest on either side give half the significance.
 *
 * @param count at least 3
 * @param significance above 0 and below 1
 * @throws RangeError outside these ranges
 */
export function farthestCritical(count: number, significance: number): number {
  if (!(Number.isInteger(count) && count >= 3)) throw new RangeError(`count: expected a whole number of at least 3, got ${count}`);
  if (!(significance > 0 && significance < 1)) throw new RangeError(`significance: expected above 0 and below 1, got ${significance}`);
  const square = studentQuantile(significance / count, count - 2) ** 2;
  return ((count - 1) / Math.sqrt(count)) * Math.sqrt(square / (count - 2 + square));
}
