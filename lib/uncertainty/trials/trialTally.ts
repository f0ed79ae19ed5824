import { kernelsAt } from "../kernels/workspace.ts";
import { blockSize } from "./blockWords.ts";
import type { TrialModel } from "./trialModel.ts";

/** Cells in which values are counted, over this many scales to either side of the centre. */
export const tallyCells = 4096;
export const tallyReach = 10;
/** Sums are kept as whole multiples of 2^-40: added in any order they give the same number. */
const fixedPoint = 2 ** 40;

/** What is kept of the trials of one result. Constant in size, whatever the number of trials. */
export interface OutputTally {
  readonly name: string;
  readonly centre: number;
  readonly scale: number;
  /** Trials in which the model had no value. */
  failed: number;
  /** Values below and above all cells. */
  below: number;
  above: number;
  readonly counts: Float64Array;
  /** Σ z and Σ z² with z = (value - centre) / scale, as multiples of 2^-40. */
  sum: bigint;
  squares: bigint;
  least: number;
  most: number;
}

/**
 * What trials leave behind: for every result counts in fixed cells and exact sums. Tallies of any blocks, in any order, put together are the same
 * to the last bit as one run of all of them; nothing depends on who did what.
 */
export class TrialTally {
  readonly fingerprint: string;
  readonly seed: number;
  trials: number;
  readonly outputs: readonly OutputTally[];
  /** Blocks that are in, first included and last not, in rising order and apart from each other. */
  ranges: readonly (readonly [from: number, to: number])[];

  constructor({ fingerprint, seed, outputs }: Pick<TrialModel, "fingerprint" | "seed" | "outputs">) {
    this.fingerprint = fingerprint;
    this.seed = seed;
    this.trials = 0;
    this.ranges = [];
    this.outputs = outputs.map(({ name, centre, scale }) => emptyTally(name, centre, scale));
  }

  /** Counts one block of trials in. @throws RangeError if it is in already */
  add(block: number, columns: readonly Float64Array[]): void {
    this.ranges = withRange(this.ranges, [block, block + 1]);
    for (let k = 0; k < this.outputs.length; k++) countColumn(this.outputs[k] as OutputTally, columns[k] as Float64Array);
    this.trials += (columns[0] as Float64Array | undefined)?.length ?? 0;
  }

  /** Takes in what another has counted. @throws RangeError if it is of another computation, or blocks are in both */
  merge(other: TrialTally): void {
    if (other.fingerprint !== this.fingerprint)
      throw new RangeError(`fingerprint: expected trials of the same computation (${this.fingerprint}), got ${other.fingerprint}`);
    this.ranges = other.ranges.reduce(withRange, this.ranges);
    this.trials += other.trials;
    this.outputs.forEach((mine, k) => {
      const theirs = other.outputs[k] as OutputTally;
      for (let cell = 0; cell < tallyCells; cell++) mine.counts[cell] = (mine.counts[cell] as number) + (theirs.counts[cell] as number);
      mine.failed += theirs.failed;
      mine.below += theirs.below;
      mine.above += theirs.above;
      mine.sum += theirs.sum;
      mine.squares += theirs.squares;
      mine.least = Math.min(mine.least, theirs.least);
      mine.most = Math.max(mine.most, theirs.most);
    });
  }
}

export function emptyTally(name: string, centre: number, scale: number): OutputTally {
  return {
    name,
    centre,
    scale,
    failed: 0,
    below: 0,
    above: 0,
    counts: new Float64Array(tallyCells),
    sum: 0n,
    squares: 0n,
    least: Number.POSITIVE_INFINITY,
    most: Number.NEGATIVE_INFINITY,
  };
}

/** Mean and standard deviation (n - 1) of the values that there are; NaN where there are too few. */
export function momentsOf({ sum, squares, counts, below, above, centre, scale }: OutputTally): {
  readonly count: number;
  readonly mean: number;
  readonly standardDeviation: number;
} {
  // Asked after every batch of an adaptive run: a plain loop takes a tenth of the time of a reduction.
  let count = below + above;
  for (let cell = 0; cell < counts.length; cell++) count += counts[cell] as number;
  const n = BigInt(count);
  // n Σz² - (Σz)², exactly: nothing cancels.
  const spread = n * squares * BigInt(fixedPoint) - sum * sum;
  return {
    count,
    mean: count > 0 ? centre + (scale * Number(sum)) / fixedPoint / count : Number.NaN,
    standardDeviation:
      count > 1 ? scale * Math.sqrt(Math.max(0, Number(spread) / fixedPoint / fixedPoint / count / (count - 1))) : Number.NaN,
  };
}

/** The cell that begins at the centre. */
const middle = tallyCells / 2;

function countColumn(tally: OutputTally, column: Float64Array): void {
  if (!countUsualColumn(tally, column)) countAnyColumn(tally, column);
}

/** Counts a whole block of which every value lies within the cells; returns false, with nothing counted, where one does not. */
function countUsualColumn(tally: OutputTally, column: Float64Array): boolean {
  if (column.length !== blockSize) return false;
  const { centre, counts } = tally;
  const kernels = kernelsAt(column);
  const perScale = 1 / tally.scale;
  const perUnit = (tallyCells / (2 * tallyReach)) * perScale;
  const { sum, squares, least, most } = kernels.survey(column, centre, perScale);
  // The sum of squares is no number where a value is none. Rounding keeps the order, so that all lie between the cells of these two.
  if (!(squares < Number.POSITIVE_INFINITY && middle + (least - centre) * perUnit >= 0 && middle + (most - centre) * perUnit < tallyCells))
    return false;
  const cells = kernels.cells(column, middle, centre, perUnit);
  // Four in a round, which would cost as much as one of them.
  for (let i = 0; i < blockSize; i += 4) {
    const a = cells[i] as number;
    const b = cells[i + 1] as number;
    const c = cells[i + 2] as number;
    const d = cells[i + 3] as number;
    counts[a] = (counts[a] as number) + 1;
    counts[b] = (counts[b] as number) + 1;
    counts[c] = (counts[c] as number) + 1;
    counts[d] = (counts[d] as number) + 1;
  }
  addUp(tally, sum, squares, least, most);
  return true;
}

/** Value by value, also of those that lie beyond all cells, or are none. */
function countAnyColumn(tally: OutputTally, column: Float64Array): void {
  const { centre, counts } = tally;
  const perScale = 1 / tally.scale;
  const perUnit = (tallyCells / (2 * tallyReach)) * perScale;
  let sum = 0;
  let squares = 0;
  let { least, most } = tally;
  for (let i = 0; i < column.length; i++) {
    const value = column[i] as number;
    const z = (value - centre) * perScale;
    if (!(z * z < Number.POSITIVE_INFINITY)) {
      tally.failed++;
      continue;
    }
    sum += z;
    squares += z * z;
    if (value < least) least = value;
    if (value > most) most = value;
    const cell = middle + (value - centre) * perUnit;
    if (cell < 0) tally.below++;
    else if (cell >= tallyCells) tally.above++;
    else {
      const at = cell | 0;
      counts[at] = (counts[at] as number) + 1;
    }
  }
  addUp(tally, sum, squares, least, most);
}

function addUp(tally: OutputTally, sum: number, squares: number, least: number, most: number): void {
  tally.least = Math.min(tally.least, least);
  tally.most = Math.max(tally.most, most);
  tally.sum += BigInt(Math.round(sum * fixedPoint));
  tally.squares += BigInt(Math.round(squares * fixedPoint));
}

type Range = readonly [from: number, to: number];

function withRange(ranges: readonly Range[], [from, to]: Range): Range[] {
  const clash = ranges.find(([a, b]) => from < b && a < to);
  if (clash !== undefined) throw new RangeError(`block: expected one that is not counted yet, got ${Math.max(from, clash[0])} again`);
  const sorted = [...ranges, [from, to] as const].sort((a, b) => a[0] - b[0]);
  const joined: Range[] = [];
  for (const range of sorted) {
    const last = joined.at(-1);
    if (last !== undefined && last[1] === range[0]) joined[joined.length - 1] = [last[0], range[1]];
    else joined.push(range);
  }
  return joined;
}
