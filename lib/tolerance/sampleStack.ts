import type { Budget } from "../uncertainty/budget.ts";
import type { Draws } from "../uncertainty/draws.ts";
import type { Source } from "../uncertainty/source.ts";
import { scaleOf, standardUncertaintyOf } from "../uncertainty/sourceDistribution.ts";
import type { Stack } from "./stack.ts";

/** Sources that change the variance of a component by this share of it together: less than any number of trials can see. */
const unseen = 1e-3;
/** The same of parts of sources that are seen elsewhere: what is left out goes together with what is not, and tells by the root of its share. */
const unseenPart = 1e-5;
/** Tails of a t with fewer degrees of freedom are seen however small it is, unless the same trials have it so many times as large elsewhere. */
const lightTails = 8;
const outweighed = 100;

/** Deviation of every trial of a characteristic: mm, or mm of diameter in a round zone. */
export function sampleStack(stack: Stack, draws: Draws): Float64Array {
  const { own, shared } = columnsFor(draws);
  const movement = movementOf([stack], draws);
  addShared(movement, shared);
  addOwn(stack, movement.apart[0] as readonly Sum[], shared, own);
  const [first, second] = own;
  return stack.isRound ? first.map((x, trial) => 2 * Math.sqrt(x * x + (second[trial] as number) ** 2)) : first;
}

/**
 * Adds to the count of every trial how many of the characteristics are not within their limits.
 *
 * @param stacks one, or several with as many components that are results of one computation, such as the holes of a pattern: what all of them follow
 * alike is added up once
 */
export function countFailures(stacks: readonly Stack[], draws: Draws, { own, shared }: Columns, failures: Uint16Array): void {
  const movement = movementOf(stacks, draws);
  addShared(movement, shared);
  stacks.forEach((stack, i) => {
    addOwn(stack, movement.apart[i] as readonly Sum[], shared, own);
    if (stack.isRound) countOutside(own, stack.limits.upper / 2, failures);
    else countBeyond(own[0], stack.limits, failures);
  });
}

/** Room for the trials of characteristics: X and Y in a round zone, the first alone otherwise. */
export interface Columns {
  readonly shared: readonly [Float64Array, Float64Array];
  readonly own: readonly [Float64Array, Float64Array];
}

export function columnsFor({ trials }: Draws): Columns {
  const pair = () => [new Float64Array(trials), new Float64Array(trials)] as const;
  return { shared: pair(), own: pair() };
}

/** What is added to a column: factors of the unit columns of sources. */
interface Sum {
  readonly units: readonly Float64Array[];
  readonly factors: readonly number[];
}

/** How trials move characteristics, by component: what moves all of them alike, and by characteristic what is apart from that. */
interface Movement {
  readonly alike: readonly Sum[];
  readonly apart: readonly (readonly Sum[])[];
}

function movementOf(stacks: readonly Stack[], draws: Draws): Movement {
  const [{ components }] = stacks as readonly [Stack];
  const from = drawnFrom((components[0] as Budget).sources);
  const seen = stacks.map((stack) => seenFactors(stack, from));
  const largest = new Float64Array(from.sources.length);
  for (const rows of seen) for (const row of rows) keepLargest(largest, row);
  const alike: Sum[] = [];
  const apart: Sum[][] = stacks.map(() => []);
  for (let k = 0; k < components.length; k++) {
    const rows = seen.map((each) => each[k] as Float64Array);
    const uncertainties = stacks.map((stack) => (stack.components[k] as Budget).standardUncertainty);
    const least = Math.min(...uncertainties);
    const common = commonOf(rows, from.spreads, least);
    alike.push(sumOf(common, least, largest, from, draws));
    rows.forEach((row, m) => {
      for (let i = 0; i < row.length; i++) row[i] = (row[i] as number) - (common[i] as number);
      (apart[m] as Sum[]).push(sumOf(row, uncertainties[m] as number, largest, from, draws));
    });
  }
  return { alike, apart };
}

/** What trials need of the sources of a computation, one entry each. */
interface DrawnSources {
  readonly sources: readonly Source[];
  /** Standard uncertainty of a source as a multiple of what multiplies its unit column. */
  readonly spreads: Float64Array;
  readonly scales: Float64Array;
  /** 1 for heavy tails. */
  readonly heavy: Uint8Array;
}

/** One computation is asked for many characteristics. */
const known = new WeakMap<readonly Source[], DrawnSources>();

function drawnFrom(sources: readonly Source[]): DrawnSources {
  let drawn = known.get(sources);
  if (drawn === undefined) {
    drawn = drawnSources(sources);
    known.set(sources, drawn);
  }
  return drawn;
}

function drawnSources(sources: readonly Source[]): DrawnSources {
  const spreads = new Float64Array(sources.length);
  const scales = new Float64Array(sources.length);
  const heavy = new Uint8Array(sources.length);
  for (let i = 0; i < sources.length; i++) {
    const { distribution } = sources[i] as Source;
    const scale = scaleOf(distribution);
    scales[i] = scale;
    spreads[i] = scale > 0 ? standardUncertaintyOf(distribution) / scale : 0;
    heavy[i] = distribution.shape === "scaledT" && distribution.degreesOfFreedom < lightTails ? 1 : 0;
  }
  return { sources, spreads, scales, heavy };
}

/** What multiplies the unit column of each source, by component; 0 for those that are too small together to be seen along any of them. */
function seenFactors({ components }: Stack, from: DrawnSources): Float64Array[] {
  const { scales, spreads, heavy } = from;
  const shares = new Float64Array(scales.length);
  const rows = components.map(({ sensitivities, standardUncertainty }) => {
    const factors = new Float64Array(scales.length);
    for (let i = 0; i < factors.length; i++) {
      const sensitivity = sensitivities[i] as number;
      if (sensitivity === 0) continue;
      const factor = sensitivity * (scales[i] as number);
      factors[i] = factor;
      shares[i] = Math.max(shares[i] as number, shareOf(factor * (spreads[i] as number), standardUncertainty));
    }
    return factors;
  });
  const small = new LeftOut(unseen);
  for (let i = 0; i < shares.length; i++) if (heavy[i] === 0 && small.takes(shares[i] as number)) for (const row of rows) row[i] = 0;
  return rows;
}

/** Differences of this share of the variance are none: some tens of them still cannot be seen together. */
const alikeUpTo = unseenPart / 30;

/** What multiplies the unit columns of all characteristics alike: the mean where none is apart from it, 0 elsewhere. */
function commonOf(rows: readonly Float64Array[], spreads: Float64Array, standardUncertainty: number): Float64Array {
  const common = new Float64Array(spreads.length);
  const apart = Math.sqrt(alikeUpTo) * standardUncertainty;
  for (let i = 0; i < common.length; i++) {
    let total = 0;
    for (const row of rows) total += row[i] as number;
    if (total === 0) continue;
    const mean = total / rows.length;
    let farthest = 0;
    for (const row of rows) farthest = Math.max(farthest, Math.abs((row[i] as number) - mean));
    if (farthest * (spreads[i] as number) <= apart) common[i] = mean;
  }
  return common;
}

function keepLargest(largest: Float64Array, row: Float64Array): void {
  for (let i = 0; i < row.length; i++) largest[i] = Math.max(largest[i] as number, Math.abs(row[i] as number));
}

/** The parts that can be seen along one component. */
function sumOf(factors: Float64Array, standardUncertainty: number, largest: Float64Array, from: DrawnSources, draws: Draws): Sum {
  const { sources, spreads, heavy } = from;
  const small = new LeftOut(unseenPart);
  const units: Float64Array[] = [];
  const kept: number[] = [];
  for (let i = 0; i < factors.length; i++) {
    const factor = factors[i] as number;
    if (factor === 0) continue;
    const tailsSeen = heavy[i] !== 0 && outweighed * Math.abs(factor) > (largest[i] as number);
    if (!tailsSeen && small.takes(shareOf(factor * (spreads[i] as number), standardUncertainty))) continue;
    units.push(draws.unitColumn(sources[i] as Source));
    kept.push(factor);
  }
  return { units, factors: kept };
}

/** Of the variance. */
function shareOf(amount: number, standardUncertainty: number): number {
  return amount === 0 ? 0 : (amount / standardUncertainty) ** 2;
}

/** Decides of one share of a variance after the other whether it is left out: only small ones, and no more than the limit together. */
class LeftOut {
  private left: number;
  private readonly most: number;

  constructor(limit: number) {
    this.left = limit;
    this.most = limit / 8;
  }

  takes(share: number): boolean {
    if (!(share <= this.most && share <= this.left)) return false;
    this.left -= share;
    return true;
  }
}

function addShared({ alike }: Movement, shared: Columns["shared"]): void {
  alike.forEach((sum, k) => {
    addColumns((shared[k] as Float64Array).fill(0), sum);
  });
}

function addOwn({ components }: Stack, apart: readonly Sum[], shared: Columns["shared"], own: Columns["own"]): void {
  apart.forEach((sum, k) => {
    const column = own[k] as Float64Array;
    const start = shared[k] as Float64Array;
    const { value } = components[k] as Budget;
    for (let trial = 0; trial < column.length; trial++) column[trial] = value + (start[trial] as number);
    addColumns(column, sum);
  });
}

function countOutside([first, second]: Columns["own"], radius: number, failures: Uint16Array): void {
  const squaredRadius = radius * radius;
  for (let trial = 0; trial < failures.length; trial++) {
    const x = first[trial] as number;
    const y = second[trial] as number;
    if (x * x + y * y > squaredRadius) failures[trial] = (failures[trial] as number) + 1;
  }
}

function countBeyond(column: Float64Array, { lower, upper }: Stack["limits"], failures: Uint16Array): void {
  for (let trial = 0; trial < failures.length; trial++) {
    const x = column[trial] as number;
    if (x < lower || x > upper) failures[trial] = (failures[trial] as number) + 1;
  }
}

/** column + Σ factor · unit, several units at a time: the column is read and written as seldom. */
function addColumns(column: Float64Array, { units, factors }: Sum): void {
  let k = 0;
  for (; k + 5 < units.length; k += 6) addSix(column, units, factors, k);
  for (; k + 2 < units.length; k += 3) addThree(column, units, factors, k);
  for (; k < units.length; k++) addOne(column, units[k] as Float64Array, factors[k] as number);
}

function addOne(column: Float64Array, unit: Float64Array, factor: number): void {
  for (let trial = 0; trial < column.length; trial++) column[trial] = (column[trial] as number) + factor * (unit[trial] as number);
}

/** By itself, so that it is compiled as a whole. */
function addThree(column: Float64Array, units: readonly Float64Array[], factors: readonly number[], from: number): void {
  const [a, b, c] = [units[from], units[from + 1], units[from + 2]] as [Float64Array, Float64Array, Float64Array];
  const [p, q, r] = [factors[from], factors[from + 1], factors[from + 2]] as [number, number, number];
  for (let trial = 0; trial < column.length; trial++)
    column[trial] = (column[trial] as number) + (p * (a[trial] as number) + q * (b[trial] as number) + r * (c[trial] as number));
}

function addSix(column: Float64Array, units: readonly Float64Array[], factors: readonly number[], from: number): void {
  const [a, b, c] = [units[from], units[from + 1], units[from + 2]] as [Float64Array, Float64Array, Float64Array];
  const [d, e, f] = [units[from + 3], units[from + 4], units[from + 5]] as [Float64Array, Float64Array, Float64Array];
  const [p, q, r] = [factors[from], factors[from + 1], factors[from + 2]] as [number, number, number];
  const [s, t, u] = [factors[from + 3], factors[from + 4], factors[from + 5]] as [number, number, number];
  for (let trial = 0; trial < column.length; trial++) {
    const first = p * (a[trial] as number) + q * (b[trial] as number) + r * (c[trial] as number);
    const second = s * (d[trial] as number) + t * (e[trial] as number) + u * (f[trial] as number);
    column[trial] = (column[trial] as number) + (first + second);
  }
}
