/**
 * Half of one unit in the last of `digits` significant digits of a standard uncertainty: the numerical tolerance of a result whose uncertainty
 * is told with so many (JCGM 101:2008, 7.9.2: u = c · 10^l, δ = ½ · 10^l).
 *
 * @param standardUncertainty above 0, in the unit of the result
 * @param digits significant digits that count, 1 to 15; 1 or 2 are usual
 * @throws RangeError outside these ranges
 */
export function numericalTolerance(standardUncertainty: number, digits: number): number {
  if (!(standardUncertainty > 0 && Number.isFinite(standardUncertainty)))
    throw new RangeError(`standardUncertainty: expected above 0, got ${standardUncertainty}`);
  if (!(Number.isInteger(digits) && digits >= 1 && digits <= 15)) throw new RangeError(`digits: expected 1 to 15, got ${digits}`);
  // As it is written, so that 0.0996 with two digits counts as 1.0 · 10^-1.
  const exponent = Number(standardUncertainty.toExponential(digits - 1).split("e")[1]);
  return Number(`5e${exponent - digits}`);
}

/** Whether a difference keeps a tolerance; undefined where what it may be off itself leaves that open. */
export function keepsTolerance(difference: number, doubt: number, tolerance: number): boolean | undefined {
  if (difference + doubt <= tolerance) return true;
  return difference - doubt > tolerance ? false : undefined;
}
