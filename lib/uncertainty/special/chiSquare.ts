import { incompleteGamma } from "./incompleteGamma.ts";
import { logGamma } from "./logGamma.ts";
import { normalQuantile } from "./normalQuantile.ts";
import { solveLogarithmic } from "./solveLogarithmic.ts";

/** Chance that chi-square with `degreesOfFreedom` > 0 (whole or not) is at most `x` >= 0: P(ν/2, x/2), Abramowitz and Stegun 26.4.19. */
export function chiSquareCumulative(x: number, degreesOfFreedom: number): number {
  return incompleteGamma(degreesOfFreedom / 2, x / 2).lower;
}

/** Chance that chi-square exceeds `x`; keeps its relative precision in the far tail. */
export function chiSquareUpperTail(x: number, degreesOfFreedom: number): number {
  return incompleteGamma(degreesOfFreedom / 2, x / 2).upper;
}

/**
 * The value that chi-square does not exceed with chance `probability`; relative error about 1e-13.
 *
 * @param probability from 0 (gives 0) to 1 (gives Infinity)
 * @throws RangeError outside 0 to 1, or for degrees of freedom not finite or not above 0
 */
export function chiSquareQuantile(probability: number, degreesOfFreedom: number): number {
  if (!(probability >= 0 && probability <= 1)) throw new RangeError(`probability: expected 0 to 1, got ${probability}`);
  const a = degreesOfFreedom / 2;
  if (!(a > 0 && a < Number.POSITIVE_INFINITY)) throw new RangeError(`degreesOfFreedom: expected finite and > 0, got ${degreesOfFreedom}`);
  if (probability === 0) return 0;
  if (probability === 1) return Number.POSITIVE_INFINITY;
  // Wilson and Hilferty, Proc. Natl. Acad. Sci. 17 (1931) 684-688; near zero the power law that bounds the chance from above.
  const h = 1 / (9 * a);
  const cube = Math.max(0, 1 - h + normalQuantile(probability) * Math.sqrt(h)) ** 3;
  const start = Math.max(a * cube, Math.exp((Math.log(probability) + logGamma(a + 1)) / a), Number.MIN_VALUE);
  const solution =
    probability < 0.5
      ? solveLogarithmic(probability, start, (x) => {
          const { lower, power } = incompleteGamma(a, x);
          return [lower, power];
        })
      : solveLogarithmic(1 - probability, start, (x) => {
          const { upper, power } = incompleteGamma(a, x);
          return [upper, -power];
        });
  return 2 * solution;
}
