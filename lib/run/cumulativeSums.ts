/** The sums of one run, part by part. */
export interface CumulativeSums {
  readonly above: readonly number[];
  readonly below: readonly number[];
  /** Place of the first value at which one of them is beyond the threshold, from 0; undefined where none is. */
  readonly seenAt: number | undefined;
}

/**
 * Cumulative sums of a run (E. S. Page 1954; tabular form, NIST/SEMATECH e-Handbook 6.3.2.3): of what each value lies above its target beyond an allowance,
 * kept at 0 or above, and the same below. They see a small lasting change sooner than limits for single values do.
 *
 * @param values in the order of making
 * @param allowance half of the change that is to be seen, 0 or above, in the unit of the values
 * @param threshold above 0, in the unit of the values
 * @throws RangeError for an allowance or a threshold out of range
 */
export function cumulativeSums(values: readonly number[], target: number, allowance: number, threshold: number): CumulativeSums {
  if (!(allowance >= 0)) throw new RangeError(`allowance: expected 0 or above, got ${allowance}`);
  if (!(threshold > 0)) throw new RangeError(`threshold: expected above 0, got ${threshold}`);
  const above: number[] = [];
  const below: number[] = [];
  for (const [i, value] of values.entries()) {
    above.push(Math.max(0, (above[i - 1] ?? 0) + (value - target) - allowance));
    below.push(Math.max(0, (below[i - 1] ?? 0) - (value - target) - allowance));
  }
  const seenAt = above.findIndex((up, i) => Math.max(up, below[i] as number) > threshold);
  return { above, below, seenAt: seenAt < 0 ? undefined : seenAt };
}
