import type { Budget, Contribution } from "../../../lib/uncertainty/budget.ts";
import { families } from "../../../lib/uncertainty/source.ts";

/** The most rows that a budget is drawn with. */
const mostRows = 24;
/** Share of the variance that the merged rows stay below. */
const mergedShare = 0.01;

/** Largest first into the rows that are shown, and the tail that is merged. */
export function splitBudget({ contributions: all, standardUncertainty }: Budget): {
  shown: readonly Contribution[];
  rest: readonly Contribution[];
} {
  // A source that is exactly known does nothing.
  const contributions = all.filter(({ amount }) => amount !== 0);
  let count = contributions.length;
  let merged = 0;
  const limit = mergedShare * standardUncertainty ** 2;
  for (; count > 1; count--) {
    merged += (contributions[count - 1] as Contribution).amount ** 2;
    if (!(merged < limit) && count <= mostRows) break;
  }
  // One source alone is told by its name.
  if (contributions.length - count < 2 && contributions.length <= mostRows) count = contributions.length;
  const shown = contributions.slice(0, count);
  return {
    shown: [...shown].sort(
      (a, b) => families.indexOf(a.source.family) - families.indexOf(b.source.family) || Math.abs(b.amount) - Math.abs(a.amount),
    ),
    rest: contributions.slice(count),
  };
}
