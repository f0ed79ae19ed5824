/**
 * Effective degrees of freedom of a combined standard uncertainty, by the Welch-Satterthwaite formula
 * ν = u⁴ / Σ (uᵢ⁴ / νᵢ) with u² = Σ uᵢ² (JCGM 100:2008, G.4.1, equation G.2b).
 *
 * It holds for independent contributions only: add what comes from one source before calling. Not truncated to a whole number
 * (see `coverageFactor`). No contribution, or none that is not 0, gives Infinity: nothing is in doubt.
 *
 * @param contributions `contribution`: sensitivity times standard uncertainty, any sign, all in one unit; `degreesOfFreedom` above 0, `Infinity` for a well-known one
 * @throws RangeError for degrees of freedom not above 0, or a contribution that is not finite
 */
export function effectiveDegreesOfFreedom(
  contributions: readonly { readonly contribution: number; readonly degreesOfFreedom: number }[],
): number {
  let largest = 0;
  for (const { contribution, degreesOfFreedom } of contributions) {
    if (!Number.isFinite(contribution)) throw new RangeError(`contribution: expected finite, got ${contribution}`);
    if (!(degreesOfFreedom > 0)) throw new RangeError(`degreesOfFreedom: expected > 0, got ${degreesOfFreedom}`);
    largest = Math.max(largest, Math.abs(contribution));
  }
  if (largest === 0) return Number.POSITIVE_INFINITY;
  let variance = 0;
  let sum = 0;
  for (const { contribution, degreesOfFreedom } of contributions) {
    // Relative to the largest, since fourth powers of a micrometre in metres underflow.
    const square = (contribution / largest) ** 2;
    variance += square;
    sum += (square * square) / degreesOfFreedom;
  }
  return variance ** 2 / sum;
}
