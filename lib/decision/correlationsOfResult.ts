import { correlation } from "../uncertainty/covariance.ts";
import type { NamedResult } from "./namedResults.ts";

/** How a result goes together with another. */
export interface ResultCorrelation {
  readonly id: string;
  readonly group: NamedResult["group"];
  /** From -1 to 1 (JCGM 100:2008, 5.2.2). */
  readonly coefficient: number;
}

/**
 * Correlation of one result with all others that are in doubt, the strongest first, to first order. Results of which one is not known, or exact, do
 * not go together with any.
 */
export function correlationsOfResult(results: readonly NamedResult[], id: string): ResultCorrelation[] {
  const { budget } = results.find((result) => result.id === id) ?? {};
  if (!budget?.ok || budget.value.standardUncertainty === 0) return [];
  return results
    .flatMap((other): ResultCorrelation[] =>
      other.id === id || !other.budget.ok || other.budget.value.standardUncertainty === 0
        ? []
        : [{ id: other.id, group: other.group, coefficient: correlation(budget.value, other.budget.value) }],
    )
    .sort((a, b) => strengthOf(b) - strengthOf(a));
}

/** Results that differ by less than anybody sees stay in their own order. */
function strengthOf({ coefficient }: ResultCorrelation): number {
  return Math.round(1000 * Math.abs(coefficient));
}
