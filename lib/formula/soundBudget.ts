import { failure, type Outcome, success } from "../base/outcome.ts";
import { type Budget, finiteBudgetOf } from "../uncertainty/budget.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";

/**
 * The budget of a formula's value. Numbers that a person may type can be so large that the value is finite and a sensitivity or the
 * standard uncertainty is not; such a value has no budget.
 */
export function soundBudget(value: Uncertain): Outcome<Budget> {
  const budget = finiteBudgetOf(value);
  return budget ? success(budget) : failure({ at: "", what: "the uncertainty of the result is too large, or is no number" });
}
