/** Decimals that tell evenly spaced ticks apart: 2 for 0, 0.05, 0.10. */
export function decimalsOfStep(ticks: readonly number[]): number {
  const [first, second] = ticks;
  if (first === undefined || second === undefined) return 3;
  const step = Math.abs(second - first);
  if (!(step > 0)) throw new RangeError(`ticks: expected different numbers, got ${first} and ${second}`);
  // Half a decade of slack for the rounding of the difference.
  return Math.min(12, Math.max(0, -Math.floor(Math.log10(step) + 1e-6)));
}
