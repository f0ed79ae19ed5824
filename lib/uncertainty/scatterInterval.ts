import type { PooledScatter } from "./repeats.ts";
import { chiSquareQuantile } from "./special/chiSquare.ts";

/**
 * The interval in which the standard deviation of normal readings lies with this confidence, of which `scatter` is the estimate:
 * s √(ν/χ²), with the same chance left on either side (NIST/SEMATECH e-Handbook 1.3.5.8). With 9 degrees of freedom and 95 % that is 0.69 s to 1.83 s.
 *
 * @param confidence above 0 and below 1
 * @throws RangeError outside these ranges, for a standard deviation not finite or below 0, or degrees of freedom not finite or not above 0
 */
export function scatterInterval(
  { standardDeviation, degreesOfFreedom }: PooledScatter,
  confidence: number,
): readonly [lower: number, upper: number] {
  if (!(confidence > 0 && confidence < 1)) throw new RangeError(`confidence: expected above 0 and below 1, got ${confidence}`);
  if (!(standardDeviation >= 0 && standardDeviation < Number.POSITIVE_INFINITY)) {
    throw new RangeError(`standardDeviation: expected finite and >= 0, got ${standardDeviation}`);
  }
  const bound = (probability: number) => standardDeviation * Math.sqrt(degreesOfFreedom / chiSquareQuantile(probability, degreesOfFreedom));
  return [bound((1 + confidence) / 2), bound((1 - confidence) / 2)];
}
