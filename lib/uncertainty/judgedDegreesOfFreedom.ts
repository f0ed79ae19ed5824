/**
 * Degrees of freedom of a standard uncertainty that somebody has judged to be known to within a relative uncertainty:
 * ν ≈ ½ (Δu/u)⁻² (JCGM 100:2008, G.4.2, equation G.3): 25 % gives 8, 10 % gives 50.
 *
 * @param relativeUncertainty Δu/u, at least 0, as a share of 1; 0 gives `Infinity`
 * @throws RangeError outside this range
 */
export function judgedDegreesOfFreedom(relativeUncertainty: number): number {
  if (!(relativeUncertainty >= 0 && relativeUncertainty < Number.POSITIVE_INFINITY)) {
    throw new RangeError(`relativeUncertainty: expected finite and >= 0, got ${relativeUncertainty}`);
  }
  return 0.5 / relativeUncertainty ** 2;
}
