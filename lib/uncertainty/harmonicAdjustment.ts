/**
 * What to change the setting by after the n-th piece: the piece's deviation with the sign reversed, by n (F. E. Grubbs, An optimum
 * procedure for setting machines or adjusting processes, Industrial Quality Control, July 1954; reprinted J. Quality Technology 15 (1983)).
 *
 * After n pieces, each adjusted for in this way, the setting is off by the mean of the n pieces' scatter with the sign reversed, whatever
 * it was off by at first: its standard deviation is σ/√n, the best that n pieces can give. It holds for a setting that does not drift.
 *
 * @param deviation measured less wanted, in any unit; the adjustment has the same
 * @param piece n, counted from 1
 * @throws RangeError for a deviation that is not finite, or a piece that is not a whole number above 0
 */
export function harmonicAdjustment(deviation: number, piece: number): number {
  if (!Number.isFinite(deviation)) throw new RangeError(`deviation: expected a finite number, got ${deviation}`);
  if (!(Number.isInteger(piece) && piece >= 1)) throw new RangeError(`piece: expected a whole number above 0, got ${piece}`);
  return -deviation / piece;
}
