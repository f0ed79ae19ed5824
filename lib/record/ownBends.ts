import type { OwnEvaluation } from "../decision/setupEvaluation.ts";
import { soundBudget } from "../formula/soundBudget.ts";
import { budgetDistribution } from "../tolerance/budgetDistribution.ts";
import { Tape } from "../uncertainty/tape.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";
import { type BeyondFirstOrder, beyondFirstOrder } from "./studyResults.ts";

/**
 * What is known beyond first order of the values of a person's own formulas; formulas that are linear in everything uncertain, or do not vary, are
 * left out, since first order is all there is to know of them. Each is looked at by itself, so that it comes to the same beside whatever others.
 *
 * @param seed of the points at which the bend is looked for
 */
export function beyondFirstOrderOfOwn(values: readonly Uncertain[], seed: number): ReadonlyMap<Uncertain, BeyondFirstOrder> {
  const found = new Map<Uncertain, BeyondFirstOrder>();
  for (const value of values) {
    const budget = new Tape([value]).isLinear(0) ? undefined : soundBudget(value);
    if (!budget?.ok) continue;
    const linear = budgetDistribution(budget.value);
    const [bend] = beyondFirstOrder([{ value, components: [value], budgets: [budget.value], linear, limits: undefined }], seed);
    if (bend !== undefined) found.set(value, bend);
  }
  return found;
}

/** Every value that a person's own cells and columns have, in document order. */
export function ownValues({ cells = new Map(), own = new Map() }: Partial<OwnEvaluation>): Uncertain[] {
  return [...cells.keys()].flatMap((name) => {
    const outcome = own.get(name);
    if (!outcome?.ok) return [];
    const { value } = outcome;
    return value.kind === "quantity" ? [value.value] : value.rows.flatMap((row) => (row?.ok ? [row.value] : []));
  });
}
