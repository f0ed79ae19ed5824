import type { Budget } from "../uncertainty/budget.ts";
import type { Draws } from "../uncertainty/draws.ts";
import { scaleOf, standardUncertaintyOf } from "../uncertainty/sourceDistribution.ts";
import type { Effect } from "./reaches.ts";
import type { Stack } from "./stack.ts";

/** Sources that change the variance of a component by this share of it together: less than any number of trials can see. */
const unseen = 1e-3;
/** Tails of a t with fewer degrees of freedom are seen however small it is. */
const lightTails = 8;

/** Deviation of every trial of a characteristic: mm, or mm of diameter in a round zone. */
export function sampleStack(stack: Stack, draws: Draws): Float64Array {
  const columns = columnsFor(draws);
  sampleComponents(stack, draws, columns);
  const [first, second] = columns;
  return stack.isRound ? first.map((x, trial) => 2 * Math.sqrt(x * x + (second[trial] as number) ** 2)) : first;
}

/** Adds one to the count of every trial in which the characteristic is not within its limits. */
export function countFailures(stack: Stack, draws: Draws, columns: Columns, failures: Uint16Array): void {
  sampleComponents(stack, draws, columns);
  const [first, second] = columns;
  const { lower, upper } = stack.limits;
  if (!stack.isRound) {
    for (let trial = 0; trial < failures.length; trial++) {
      const x = first[trial] as number;
      if (x < lower || x > upper) failures[trial] = (failures[trial] as number) + 1;
    }
    return;
  }
  const squaredRadius = (upper / 2) * (upper / 2);
  for (let trial = 0; trial < failures.length; trial++) {
    const x = first[trial] as number;
    const y = second[trial] as number;
    if (x * x + y * y > squaredRadius) failures[trial] = (failures[trial] as number) + 1;
  }
}

/** Room for the trials of one characteristic: X and Y in a round zone, the first alone otherwise. */
export type Columns = readonly [Float64Array, Float64Array];

export function columnsFor({ trials }: Draws): Columns {
  return [new Float64Array(trials), new Float64Array(trials)];
}

function sampleComponents({ components, effects }: Stack, draws: Draws, [first, second]: Columns): void {
  const seen = seenEffects(effects, components);
  const units = seen.map(({ source }) => draws.unitColumn(source));
  const [x, y] = components;
  first.fill((x as Budget).value);
  if (y === undefined) addColumns(first, factorsOf(seen, 0), units);
  else addColumnsToBoth(first, second.fill(y.value), factorsOf(seen, 0), factorsOf(seen, 1), units);
}

/** What multiplies the unit column of each source along one component. */
function factorsOf(effects: readonly Effect[], component: number): Float64Array {
  const factors = new Float64Array(effects.length);
  for (let i = 0; i < effects.length; i++) {
    const { source, sensitivities } = effects[i] as Effect;
    factors[i] = (sensitivities[component] as number) * scaleOf(source.distribution);
  }
  return factors;
}

/** All but the smallest, as long as those left out have no larger share of the variance of any component than can be seen. */
function seenEffects(effects: readonly Effect[], components: readonly Budget[]): Effect[] {
  const shares = new Float64Array(effects.length);
  for (let i = 0; i < effects.length; i++) shares[i] = largestShare(effects[i] as Effect, components);
  const order = shares.map((_, i) => i).sort((a, b) => (shares[a] as number) - (shares[b] as number));
  const seen: Effect[] = [];
  let left = unseen;
  for (const i of order) {
    const effect = effects[i] as Effect;
    const { distribution } = effect.source;
    const share = shares[i] as number;
    if (share > left || (distribution.shape === "scaledT" && distribution.degreesOfFreedom < lightTails)) seen.push(effect);
    else left -= share;
  }
  return seen;
}

/** Of the variance of a component. */
function largestShare({ source, sensitivities }: Effect, components: readonly Budget[]): number {
  const uncertainty = standardUncertaintyOf(source.distribution);
  let largest = 0;
  for (let k = 0; k < components.length; k++) {
    const { standardUncertainty } = components[k] as Budget;
    const amount = (sensitivities[k] as number) * uncertainty;
    if (amount !== 0) largest = Math.max(largest, (amount / standardUncertainty) ** 2);
  }
  return largest;
}

/** column + Σ factor · unit. */
function addColumns(column: Float64Array, factors: Float64Array, units: readonly Float64Array[]): void {
  for (let k = 0; k < units.length; k++) addColumn(column, units[k] as Float64Array, factors[k] as number);
}

function addColumn(column: Float64Array, unit: Float64Array, factor: number): void {
  for (let trial = 0; trial < column.length; trial++) column[trial] = (column[trial] as number) + factor * (unit[trial] as number);
}

/** The same for two columns at once, from three units at a time: what is read is used twice, and each column is read and written as seldom. */
function addColumnsToBoth(
  x: Float64Array,
  y: Float64Array,
  alongX: Float64Array,
  alongY: Float64Array,
  units: readonly Float64Array[],
): void {
  let k = 0;
  for (; k + 2 < units.length; k += 3) addThreeToBoth(x, y, alongX, alongY, units, k);
  for (; k < units.length; k++) {
    addColumn(x, units[k] as Float64Array, alongX[k] as number);
    addColumn(y, units[k] as Float64Array, alongY[k] as number);
  }
}

/** By itself, so that it is compiled as a whole. */
function addThreeToBoth(
  x: Float64Array,
  y: Float64Array,
  alongX: Float64Array,
  alongY: Float64Array,
  units: readonly Float64Array[],
  from: number,
): void {
  const a = units[from] as Float64Array;
  const b = units[from + 1] as Float64Array;
  const c = units[from + 2] as Float64Array;
  const xa = alongX[from] as number;
  const xb = alongX[from + 1] as number;
  const xc = alongX[from + 2] as number;
  const ya = alongY[from] as number;
  const yb = alongY[from + 1] as number;
  const yc = alongY[from + 2] as number;
  for (let trial = 0; trial < x.length; trial++) {
    const da = a[trial] as number;
    const db = b[trial] as number;
    const dc = c[trial] as number;
    x[trial] = (x[trial] as number) + (xa * da + xb * db + xc * dc);
    y[trial] = (y[trial] as number) + (ya * da + yb * db + yc * dc);
  }
}
