/**
 * u(y)/|y| (JCGM 100:2008, 5.1.6 and 7.2.1 c), for a quantity that is a size: a ratio to a coordinate, a deviation or an angle, of which 0 is no more than
 * a place, says nothing. Undefined where the size itself is 0.
 */
export function relativeStandardUncertainty({
  value,
  standardUncertainty,
}: {
  readonly value: number;
  readonly standardUncertainty: number;
}): number | undefined {
  return value === 0 ? undefined : standardUncertainty / Math.abs(value);
}
