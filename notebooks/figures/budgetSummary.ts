import type { Budget } from "../../lib/uncertainty/budget.ts";
import { coverageFactor } from "../../lib/uncertainty/coverage.ts";
import { effectiveDegreesOfFreedom } from "../../lib/uncertainty/effectiveDegreesOfFreedom.ts";
import type { UnitWriter } from "./displayUnit.ts";
import { groups } from "./formatChance.ts";

/** Coverage probability of the expanded uncertainty that figures state. */
const coverage = 0.95;

/** Combined uncertainty, degrees of freedom and expanded uncertainty of a budget, in words and in parts. */
export interface BudgetSummary {
  readonly standardUncertainty: string;
  readonly degreesOfFreedom: string;
  readonly coverageFactor: string;
  readonly expandedUncertainty: string;
  readonly sentence: string;
}

export function budgetSummary({ contributions, standardUncertainty }: Budget, { withUncertainty, suffix }: UnitWriter): BudgetSummary {
  const freedom = effectiveDegreesOfFreedom(
    contributions.map(({ amount, source }) => ({ contribution: amount, degreesOfFreedom: source.degreesOfFreedom })),
  );
  const factor = coverageFactor(coverage, freedom);
  const u = withUncertainty(0, standardUncertainty).uncertainty;
  const expanded = withUncertainty(0, factor * standardUncertainty).uncertainty;
  const k = factor < 10 ? factor.toFixed(2) : groups(Math.round(factor));
  const freedomText = freedomInWords(freedom);
  return {
    standardUncertainty: u,
    degreesOfFreedom: freedomText,
    coverageFactor: k,
    expandedUncertainty: expanded,
    sentence:
      standardUncertainty === 0
        ? "exact: no source of doubt enters"
        : `together u = ${u}${suffix}, ${freedomText} degrees of freedom, U = ${expanded}${suffix} (k = ${k}, ${coverage * 100} %)`,
  };
}

/** More than a thousand are as good as unlimited: the factor differs from the normal's by less than 0.003. */
function freedomInWords(freedom: number): string {
  if (freedom > 1000) return freedom === Number.POSITIVE_INFINITY ? "unlimited" : "over 1000";
  return freedom < 10 ? freedom.toFixed(1) : String(Math.floor(freedom));
}
