import type { CentredValues } from "./centredValues.ts";

/**
 * Correlation coefficients of quantities that were read together, s(q, r) / (s(q) s(r)), which are those of their means (JCGM 100:2008, 5.2.3, equation
 * 17, with 5.2.2, equation 14): symmetric, ones on the diagonal, 0 beside a quantity that did not scatter.
 *
 * @param centred as many values of each, in the order of the sets
 */
export function simultaneousCoefficients(centred: readonly Pick<CentredValues, "deviations" | "sumOfSquares">[]): number[][] {
  // Directions in the space of the sets: whatever the units and sizes, a coefficient is the product of two of them.
  const directions = centred.map(({ deviations, sumOfSquares }) => {
    const length = Math.sqrt(sumOfSquares) || 1;
    return deviations.map((deviation) => deviation / length);
  });
  return directions.map((a, i) => directions.map((b, j) => (i === j ? 1 : coefficientOf(a, b))));
}

/** Product of two directions, kept within -1 to 1, which rounding may leave. */
function coefficientOf(a: readonly number[], b: readonly number[]): number {
  const product = a.reduce((total, x, set) => total + x * (b[set] as number), 0);
  return Math.max(-1, Math.min(1, product));
}
