import { expandedUncertainty } from "../../lib/record/expandedUncertainty.ts";
import type { Budget } from "../../lib/uncertainty/budget.ts";
import { relativeStandardUncertainty } from "../../lib/uncertainty/relativeStandardUncertainty.ts";
import type { UnitWriter } from "./displayUnit.ts";
import { groups, inTwoDigits } from "./formatChance.ts";

/**
 * Combined standard uncertainty, effective degrees of freedom and expanded
 * uncertainty of a budget, in words. The expanded uncertainty is that of the
 * record, so that a page never shows two for one result.
 *
 * @param isSize whether the result is a size, of which u is told relative to it as well
 */
export function budgetSummary(budget: Budget, { withUncertainty, fixed, suffix }: UnitWriter, isSize = false): string {
  const { standardUncertainty } = budget;
  if (standardUncertainty === 0) return "exact: no source of doubt enters";
  const { expandedUncertainty: expanded, coverageFactor, coverageProbability, degreesOfFreedom } = expandedUncertainty(budget);
  const { uncertainty, decimals } = withUncertainty(0, standardUncertainty);
  const k = coverageFactor < 10 ? coverageFactor.toFixed(2) : groups(Math.round(coverageFactor));
  const coverage = `${(coverageProbability * 100).toFixed(2)} %`;
  const [u, U, factor] = [equals("u", `${uncertainty}${suffix}`), equals("U", `${fixed(expanded, decimals)}${suffix}`), equals("k", k)];
  const relative = isSize ? relativeStandardUncertainty(budget) : undefined;
  const ratio = relative === undefined ? "" : ` (${equals("u/|y|", inTwoDigits(relative))})`;
  return `together ${u}${ratio}, ${inWords(degreesOfFreedom)} effective degrees of freedom, ${U} (${factor}, ${coverage})`;
}

/** Narrow spaces that lines do not break at. */
function equals(symbol: string, value: string): string {
  return `${symbol} = ${value}`.replace(/ /g, "\u202f");
}

/** More than a thousand are as good as unlimited: the factor differs from the normal's by less than 0.003. */
function inWords(freedom: number): string {
  if (freedom > 1000) return freedom === Number.POSITIVE_INFINITY ? "unlimited" : "over 1000";
  return freedom < 10 ? freedom.toFixed(1) : String(Math.floor(freedom));
}
