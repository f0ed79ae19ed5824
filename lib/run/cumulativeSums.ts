/** Where the sums of what a run lies beside its target first go beyond what scatter does. */
export interface MovedMean {
  /** Place of the first part since which they have grown, from 0. */
  readonly from: number;
  /** Place of the part at which they are beyond the threshold, from 0. */
  readonly seenAt: number;
  readonly towards: "up" | "down";
}

/** The sums of one run, part by part. */
export interface CumulativeSums {
  readonly above: readonly number[];
  readonly below: readonly number[];
  readonly moved: MovedMean | undefined;
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
  let moved: MovedMean | undefined;
  const since = { up: 0, down: 0 };
  for (const [i, value] of values.entries()) {
    const up = Math.max(0, (above[i - 1] ?? 0) + (value - target) - allowance);
    const down = Math.max(0, (below[i - 1] ?? 0) - (value - target) - allowance);
    above.push(up);
    below.push(down);
    if (up === 0) since.up = i + 1;
    if (down === 0) since.down = i + 1;
    if (moved === undefined && Math.max(up, down) > threshold) {
      const towards = up > down ? "up" : "down";
      moved = { from: since[towards], seenAt: i, towards };
    }
  }
  return { above, below, moved };
}
