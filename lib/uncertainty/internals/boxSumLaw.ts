import type { CentredLaw } from "./centredLaw.ts";

/**
 * The sum of independent rectangles with the given half-widths, by its exact piecewise polynomial
 * P(Z > z) = Σ ± (Σ ±bᵢ - z)₊ᵐ / (m! Π 2bᵢ), the outer sum over all 2ᵐ choices of signs, each term signed by their product
 * (D. M. Bradley and R. C. Gupta, On the distribution of the sum of n non-identically distributed uniform random variables,
 * Ann. Inst. Stat. Math. 54 (2002) 689-700; with equal widths Irwin and Hall, 1927).
 */
export function boxSumLaw(boxes: readonly number[]): CentredLaw {
  const order = boxes.length;
  const corners = boxes.reduce<readonly Corner[]>(
    (before, half) =>
      before.flatMap(({ at, sign }) => [
        { at: at + half, sign },
        { at: at - half, sign: -sign },
      ]),
    [{ at: 0, sign: 1 }],
  );
  const outward = [...corners].sort((a, b) => b.at - a.at);
  const variance = boxes.reduce((sum, half) => sum + (half * half) / 3, 0);
  const halfWidth = boxes.reduce((sum, half) => sum + half, 0);
  return {
    evaluate(z) {
      let tail = 0;
      let density = 0;
      for (const { at, sign } of outward) {
        const reach = at - z;
        if (!(reach > 0)) break;
        // Each factor is divided by its own width, so that no power overflows or vanishes.
        let power = sign;
        for (let k = 1; k < order; k += 1) power *= reach / (2 * k * (boxes[k] as number));
        density += power / (2 * (boxes[0] as number));
        tail += (power * reach) / (2 * order * (boxes[0] as number));
      }
      return [tail, density];
    },
    halfWidth,
    knots: [...new Set(outward.map(({ at }) => at).filter((at) => at >= 0))].reverse(),
    standardDeviation: Math.sqrt(variance),
    unimodal: true,
    error: 1e-16 * (10 + boxSumCancellation(boxes)),
    method: order === 1 ? "rectangular" : `exact piecewise polynomial of degree ${order}`,
  };
}

/** How many times larger than 1 the largest term of the sum is: that many times the rounding is the error. */
export function boxSumCancellation(boxes: readonly number[]): number {
  const halfWidth = boxes.reduce((sum, half) => sum + half, 0);
  return boxes.reduce((product, half, k) => (product * halfWidth) / (2 * (k + 1) * half), 1);
}

interface Corner {
  readonly at: number;
  readonly sign: number;
}
