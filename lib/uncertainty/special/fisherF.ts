import { incompleteBeta } from "./incompleteBeta.ts";

/**
 * Chance that F with the given degrees of freedom (of the numerator, of the denominator; both > 0) exceeds `x` >= 0:
 * I_{d2/(d2 + d1 x)}(d2/2, d1/2), Abramowitz and Stegun 26.6.2. Keeps its relative precision in the far tail.
 */
export function fisherUpperTail(x: number, numeratorDegrees: number, denominatorDegrees: number): number {
  if (!(x >= 0)) throw new RangeError(`x: expected >= 0, got ${x}`);
  if (x === Number.POSITIVE_INFINITY) return 0;
  const total = denominatorDegrees + numeratorDegrees * x;
  return incompleteBeta(denominatorDegrees / 2, numeratorDegrees / 2, denominatorDegrees / total, (numeratorDegrees * x) / total).lower;
}
