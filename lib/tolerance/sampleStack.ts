import type { Budget } from "../uncertainty/budget.ts";
import { type Draws, scaleOf } from "../uncertainty/draws.ts";
import { standardUncertaintyOf } from "../uncertainty/sourceDistribution.ts";
import type { Effect, Stack } from "./stack.ts";

/** Sources that change the variance of a component by this share of it together: less than any number of trials can see. */
const unseen = 1e-3;
/** Tails of a t with fewer degrees of freedom are seen however small it is. */
const lightTails = 8;

/** Deviation of every trial of a characteristic: mm, or mm of diameter for a position. */
export function sampleStack(stack: Stack, draws: Draws): Float64Array {
  const columns = columnsFor(draws);
  sampleComponents(stack, draws, columns);
  const [first, second] = columns;
  return stack.kind === "position" ? first.map((x, trial) => 2 * Math.sqrt(x * x + (second[trial] as number) ** 2)) : first;
}

/** Adds one to the count of every trial in which the characteristic is not within its limits. */
export function countFailures(stack: Stack, draws: Draws, columns: Columns, failures: Uint16Array): void {
  sampleComponents(stack, draws, columns);
  const [first, second] = columns;
  const { lower, upper } = stack.limits;
  if (stack.kind !== "position") {
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

/** Room for the trials of one characteristic: X and Y for a position, the first alone otherwise. */
export type Columns = readonly [Float64Array, Float64Array];

export function columnsFor({ trials }: Draws): Columns {
  return [new Float64Array(trials), new Float64Array(trials)];
}

function sampleComponents({ components, effects }: Stack, draws: Draws, into: Columns): void {
  components.forEach(({ value, standardUncertainty }: Budget, component) => {
    const seen = seenEffects(effects, component, unseen * standardUncertainty ** 2);
    const factors = seen.map(({ source, sensitivities }) => (sensitivities[component] as number) * scaleOf(source.distribution));
    addColumns(
      into[component as 0 | 1].fill(value),
      factors,
      seen.map(({ source }) => draws.unitColumn(source)),
    );
  });
}

/** All but the smallest, as long as the variances of those left out stay below `most`. */
function seenEffects(effects: readonly Effect[], component: number, most: number): Effect[] {
  const sized = effects.map((effect) => ({
    effect,
    variance: ((effect.sensitivities[component] as number) * standardUncertaintyOf(effect.source.distribution)) ** 2,
  }));
  let left = most;
  return sized
    .sort((a, b) => a.variance - b.variance)
    .filter(({ effect: { source }, variance }) => {
      if (variance === 0) return false;
      const { distribution } = source;
      if (variance > left || (distribution.shape === "scaledT" && distribution.degreesOfFreedom < lightTails)) return true;
      left -= variance;
      return false;
    })
    .map(({ effect }) => effect);
}

/** column + Σ factor · unit, four at a time: the column is read and written as seldom. */
function addColumns(column: Float64Array, factors: readonly number[], units: readonly Float64Array[]): void {
  for (let k = 0; k < units.length; k += 4) {
    const a = units[k] as Float64Array;
    const b = units[k + 1] ?? a;
    const c = units[k + 2] ?? a;
    const d = units[k + 3] ?? a;
    const [fa = 0, fb = 0, fc = 0, fd = 0] = factors.slice(k, k + 4);
    for (let trial = 0; trial < column.length; trial++)
      column[trial] =
        (column[trial] as number) +
        (fa * (a[trial] as number) + fb * (b[trial] as number) + (fc * (c[trial] as number) + fd * (d[trial] as number)));
  }
}
