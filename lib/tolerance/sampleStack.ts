import type { Budget } from "../uncertainty/budget.ts";
import { type Draws, scaleOf } from "../uncertainty/draws.ts";
import type { Stack } from "./stack.ts";

/** A source with a smaller part in a component changes its variance by a millionth: less than any number of trials can see. */
const unseen = 1e-3;

/**
 * Deviation of every trial of a characteristic: mm, or mm of diameter for a position.
 *
 * @param into two columns of one entry per trial to write to, for callers that sample many characteristics; the first is returned
 */
export function sampleStack({ kind, components, rows }: Stack, draws: Draws, into = columnsFor(draws)): Float64Array {
  const { trials } = draws;
  const [first, second] = into;
  components.forEach(({ value, standardUncertainty }: Budget, component) => {
    const column = into[component as 0 | 1];
    column.fill(value);
    for (const { source, amounts, sensitivities } of rows) {
      if (Math.abs(amounts[component] as number) <= unseen * standardUncertainty) continue;
      const factor = (sensitivities[component] as number) * scaleOf(source.distribution);
      const unit = draws.unitColumn(source);
      for (let trial = 0; trial < trials; trial++) column[trial] = (column[trial] as number) + factor * (unit[trial] as number);
    }
  });
  if (kind !== "position") return first;
  for (let trial = 0; trial < trials; trial++) {
    const x = first[trial] as number;
    const y = second[trial] as number;
    first[trial] = 2 * Math.sqrt(x * x + y * y);
  }
  return first;
}

/** Room for the trials of one characteristic. */
export function columnsFor({ trials }: Draws): readonly [Float64Array, Float64Array] {
  return [new Float64Array(trials), new Float64Array(trials)];
}
