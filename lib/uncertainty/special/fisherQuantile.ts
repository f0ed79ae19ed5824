import { chiSquareQuantile } from "./chiSquare.ts";
import { incompleteBeta } from "./incompleteBeta.ts";
import { solveLogarithmic } from "./solveLogarithmic.ts";

/**
 * The value that F with the given degrees of freedom does not exceed with chance `probability`; relative error about 1e-13.
 *
 * A far upper tail that a probability near 1 cannot express is the reciprocal of a lower one with the degrees of freedom exchanged:
 * F(1 − α; ν₁, ν₂) = 1 / F(α; ν₂, ν₁) (Abramowitz and Stegun 26.6.9). The root is found in logarithms, in which both tails are concave.
 *
 * @param probability from 0 (gives 0) to 1 (gives Infinity)
 * @param numeratorDegrees above 0; `Infinity` for a variance that is known
 * @param denominatorDegrees the same for the variance below
 * @throws RangeError outside these ranges
 */
export function fisherQuantile(probability: number, numeratorDegrees: number, denominatorDegrees: number): number {
  if (!(probability >= 0 && probability <= 1)) throw new RangeError(`probability: expected 0 to 1, got ${probability}`);
  if (!(numeratorDegrees > 0)) throw new RangeError(`numeratorDegrees: expected > 0, got ${numeratorDegrees}`);
  if (!(denominatorDegrees > 0)) throw new RangeError(`denominatorDegrees: expected > 0, got ${denominatorDegrees}`);
  if (probability === 0) return 0;
  if (probability === 1) return Number.POSITIVE_INFINITY;
  if (denominatorDegrees === Number.POSITIVE_INFINITY) {
    return numeratorDegrees === Number.POSITIVE_INFINITY ? 1 : chiSquareQuantile(probability, numeratorDegrees) / numeratorDegrees;
  }
  if (numeratorDegrees === Number.POSITIVE_INFINITY) {
    return denominatorDegrees / chiSquareQuantile(1 - probability, denominatorDegrees);
  }
  const isLower = probability < 0.5;
  return solveLogarithmic(isLower ? probability : 1 - probability, 1, (x) => {
    const total = denominatorDegrees + numeratorDegrees * x;
    const { lower, upper, power } = incompleteBeta(
      numeratorDegrees / 2,
      denominatorDegrees / 2,
      (numeratorDegrees * x) / total,
      denominatorDegrees / total,
    );
    return isLower ? [lower, power] : [upper, -power];
  });
}
