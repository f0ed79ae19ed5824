import { type Draws, scaleOf } from "../uncertainty/draws.ts";
import { standardUncertaintyOf } from "../uncertainty/sourceDistribution.ts";
import type { Stack } from "./stack.ts";

/** Deviation of every trial of a characteristic: mm, or mm of diameter for a position. */
export function sampleStack({ kind, components, rows }: Stack, draws: Draws): Float64Array {
  const { trials } = draws;
  const columns = components.map(({ value }, component) => {
    const column = new Float64Array(trials).fill(value);
    for (const { source, amounts } of rows) {
      const amount = amounts[component] as number;
      if (amount === 0) continue;
      const factor = (amount / standardUncertaintyOf(source.distribution)) * scaleOf(source.distribution);
      const unit = draws.unitColumn(source);
      for (let trial = 0; trial < trials; trial++) column[trial] = (column[trial] as number) + factor * (unit[trial] as number);
    }
    return column;
  });
  const [first, second] = columns as [Float64Array, Float64Array | undefined];
  if (kind !== "position" || second === undefined) return first;
  for (let trial = 0; trial < trials; trial++) {
    const x = first[trial] as number;
    const y = second[trial] as number;
    first[trial] = 2 * Math.sqrt(x * x + y * y);
  }
  return first;
}
