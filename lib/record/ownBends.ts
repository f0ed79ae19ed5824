import type { OwnEvaluation } from "../decision/setupEvaluation.ts";
import { soundBudget } from "../formula/soundBudget.ts";
import { budgetDistribution } from "../tolerance/budgetDistribution.ts";
import { Tape } from "../uncertainty/tape.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";
import { type BeyondFirstOrder, beyondFirstOrder } from "./studyResults.ts";

/** Formulas that are looked at together: they share points, and what they are made of. */
const together = 16;

/**
 * What is known beyond first order of the values of a person's own formulas; formulas that are linear in everything uncertain, or do not vary, are
 * left out, since first order is all there is to know of them.
 *
 * @param seed of the points at which the bend is looked for
 */
export function beyondFirstOrderOfOwn(values: readonly Uncertain[], seed: number): ReadonlyMap<Uncertain, BeyondFirstOrder> {
  const bent = values.flatMap((value) => {
    if (new Tape([value]).isLinear(0)) return [];
    const budget = soundBudget(value);
    return budget.ok
      ? [{ value, components: [value], budgets: [budget.value], linear: budgetDistribution(budget.value), limits: undefined }]
      : [];
  });
  const found = new Map<Uncertain, BeyondFirstOrder>();
  for (let from = 0; from < bent.length; from += together) {
    const group = bent.slice(from, from + together);
    beyondFirstOrder(group, seed).forEach((each, k) => {
      if (each !== undefined) found.set((group[k] as (typeof bent)[number]).value, each);
    });
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
