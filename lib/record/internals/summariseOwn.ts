import type { OwnEvaluation, SetupEvaluation } from "../../decision/setupEvaluation.ts";
import type { Dimension } from "../../formula/dimension.ts";
import { fromBaseUnit } from "../../formula/resultUnit.ts";
import { soundBudget } from "../../formula/soundBudget.ts";
import type { LedgerCell } from "../../ledger/ledger.ts";
import type { Uncertain } from "../../uncertainty/uncertain.ts";
import { resultFigures } from "./figures.ts";
import { ownUnit } from "./ownUnit.ts";
import { textTable } from "./textTable.ts";

/** Cells and columns that a person has added, in document order. Those without a value are told among the problems. */
export function summariseOwn(
  { cells = new Map(), own = new Map() }: SetupEvaluation & Partial<OwnEvaluation>,
  unit: "mm" | "inch",
): string[] {
  const rows = [...cells.values()].flatMap((cell: LedgerCell): string[][] => {
    const outcome = own.get(cell.name);
    if (!outcome?.ok) return [];
    const { value } = outcome;
    if (value.kind === "quantity") return [row(cell.name, value.value, value.dimension, cell, unit)];
    return value.rows.flatMap((each, i) => (each?.ok ? [row(`${cell.name}, row ${i + 1}`, each.value, value.dimension, cell, unit)] : []));
  });
  return rows.length === 0 ? [] : textTable(columns, rows);
}

const columns = [
  { title: "name", align: "left" },
  { title: "value", align: "right" },
  { title: "u", align: "right" },
  { title: "U", align: "right" },
  { title: "k", align: "right" },
  { title: "unit", align: "left" },
] as const;

/** Decimals of a value without doubt, at the most. */
const decimalsWhenExact = 6;

function row(name: string, value: Uncertain, dimension: Dimension, { shown }: LedgerCell, notebook: "mm" | "inch"): string[] {
  const unit = ownUnit(dimension, shown, notebook);
  const budget = soundBudget(value);
  if (!budget.ok) return [name, "-", "-", "-", "-", unit.symbol];
  const figures = resultFigures(budget.value, fromBaseUnit(1, unit), decimalsWhenExact);
  return [
    name,
    figures.value,
    figures.standardUncertainty,
    figures.expandedUncertainty,
    budget.value.standardUncertainty === 0 ? "-" : figures.coverageFactor,
    unit.symbol,
  ];
}
