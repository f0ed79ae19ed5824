import { soundBudget } from "../../../lib/formula/soundBudget.ts";
import type { SheetResults } from "../sheetResults.ts";
import { showQuantity } from "./shownQuantity.ts";

/** What a name stands for, in the notebook's usual unit; undefined where there is none. */
export function valueText(name: string, { own, quantities, evaluation }: SheetResults): string | undefined {
  const outcome = own.get(name) ?? quantities.get(name);
  if (!outcome?.ok) return undefined;
  if (outcome.value.kind === "column") return `${outcome.value.rows.length} rows`;
  const budget = soundBudget(outcome.value.value);
  if (!budget.ok) return undefined;
  const { text, suffix } = showQuantity(budget.value, outcome.value.dimension, { unit: "", decimals: "" }, evaluation.setup.unit);
  return `${text}${suffix}`;
}
