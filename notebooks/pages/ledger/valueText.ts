import { soundBudget } from "../../../lib/formula/soundBudget.ts";
import type { Quantity } from "../../../lib/ledger/cellValue.ts";
import type { SheetResults } from "../sheetResults.ts";
import { showQuantity } from "./shownQuantity.ts";

/** What a name stands for, in the notebook's usual unit; undefined where there is none. */
export function valueText(name: string, { own, quantities, evaluation }: SheetResults): string | undefined {
  const outcome = own.get(name) ?? quantities.get(name);
  if (!outcome?.ok) return undefined;
  if (outcome.value.kind === "column") return `${outcome.value.rows.length} rows`;
  return quantityText(outcome.value, evaluation.setup.unit);
}

/** A value rounded to its doubt, in the notebook's usual unit; undefined where its doubt cannot be told. */
export function quantityText({ value, dimension }: Quantity, unit: "mm" | "inch"): string | undefined {
  const budget = soundBudget(value);
  if (!budget.ok) return undefined;
  const { text, suffix } = showQuantity(budget.value, dimension, { unit: "", decimals: "" }, unit);
  return `${text}${suffix}`;
}
