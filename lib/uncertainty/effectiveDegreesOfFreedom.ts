/**
 * Effective degrees of freedom of a combined standard uncertainty, by the Welch-Satterthwaite formula
 * ν = u⁴ / Σ (uᵢ⁴ / νᵢ) with u² = Σ uᵢ² (JCGM 100:2008, G.4.1, equation G.2b).
 *
 * It holds for independent contributions only: add what comes from one source before calling. Contributions that rest on one estimate of a
 * standard deviation have variances that err together; they count as one, Σ uᵢ² with the estimate's degrees of freedom. Not truncated to a
 * whole number (see `coverageFactor`). No contribution, or none that is not 0, gives Infinity: nothing is in doubt.
 *
 * @param contributions `varianceEstimate`: name of the estimate, where several rest on the same; `contribution`: sensitivity times standard uncertainty, any sign, all in one unit; `degreesOfFreedom` above 0, `Infinity` for a well-known one
 * @throws RangeError for degrees of freedom not above 0, or a contribution that is not finite
 */
export function effectiveDegreesOfFreedom(
  contributions: readonly {
    readonly contribution: number;
    readonly degreesOfFreedom: number;
    readonly varianceEstimate?: string | undefined;
  }[],
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
  const together = new Map<string, { square: number; degreesOfFreedom: number }>();
  for (const { contribution, degreesOfFreedom, varianceEstimate } of contributions) {
    // Relative to the largest, since fourth powers of a micrometre in metres underflow.
    const square = (contribution / largest) ** 2;
    variance += square;
    if (varianceEstimate === undefined) sum += (square * square) / degreesOfFreedom;
    else together.set(varianceEstimate, { square: square + (together.get(varianceEstimate)?.square ?? 0), degreesOfFreedom });
  }
  for (const { square, degreesOfFreedom } of together.values()) sum += (square * square) / degreesOfFreedom;
  return variance ** 2 / sum;
}
