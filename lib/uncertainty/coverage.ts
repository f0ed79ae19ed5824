import { studentQuantile } from "./special/studentT.ts";

/**
 * The factor that a combined standard uncertainty is multiplied by so that the interval of that half-width about the estimate has
 * the coverage `probability`: the two-sided quantile of Student's t (JCGM 100:2008, 6.3, G.3 and Table G.2).
 *
 * Degrees of freedom that are not whole are taken as they are. JCGM 100, G.4.1 lets one interpolate or truncate to the next lower
 * whole number; the t distribution itself is defined between whole numbers, which is the interpolation without its error. To
 * truncate, pass `Math.floor(degreesOfFreedom)`.
 *
 * @param probability above 0 and below 1; the "95.45 %" and "99.73 %" of many tables mean exactly 2Φ(2) - 1 and 2Φ(3) - 1
 * @param degreesOfFreedom above 0; `Infinity` (a well-known standard uncertainty) gives the normal's factor
 * @throws RangeError outside these ranges
 */
export function coverageFactor(probability: number, degreesOfFreedom: number): number {
  if (!(probability > 0 && probability < 1)) throw new RangeError(`probability: expected above 0 and below 1, got ${probability}`);
  return -studentQuantile((1 - probability) / 2, degreesOfFreedom);
}
