import type { OwnEvaluation, SetupEvaluation } from "../../decision/setupEvaluation.ts";
import type { Dimension } from "../../formula/dimension.ts";
import { fromBaseUnit } from "../../formula/resultUnit.ts";
import { soundBudget } from "../../formula/soundBudget.ts";
import type { Unit } from "../../formula/units.ts";
import type { LedgerCell } from "../../ledger/ledger.ts";
import type { Uncertain } from "../../uncertainty/uncertain.ts";
import { bendInWords } from "../bendInWords.ts";
import { beyondFirstOrderOfOwn } from "../ownBends.ts";
import { ownRelativeUncertainty } from "../ownRelativeUncertainty.ts";
import { resultFigures } from "./figures.ts";
import { ownUnit } from "./ownUnit.ts";
import { relativeText } from "./relativeText.ts";
import { scaledWriter } from "./resultWriter.ts";
import { textTable } from "./textTable.ts";
import { bullet, wrapText } from "./wrapText.ts";

/** A value of a person's own, as it is told. */
interface Named {
  readonly name: string;
  readonly value: Uncertain;
  readonly unit: Unit;
  readonly dimension: Dimension;
}

/** Cells and columns that a person has added, in document order, and where first order does not tell all of them. Those without a value are told among the problems. */
export function summariseOwn(
  { cells = new Map(), own = new Map(), setup }: SetupEvaluation & Partial<OwnEvaluation>,
  unit: "mm" | "inch",
): string[] {
  const values = [...cells.values()].flatMap(({ name, shown }: LedgerCell): Named[] => {
    const outcome = own.get(name);
    if (!outcome?.ok) return [];
    const { value } = outcome;
    const told = ownUnit(value.dimension, shown, unit);
    if (value.kind === "quantity") return [{ name, value: value.value, unit: told, dimension: value.dimension }];
    return value.rows.flatMap((each, i) =>
      each?.ok ? [{ name: `${name}, row ${i + 1}`, value: each.value, unit: told, dimension: value.dimension }] : [],
    );
  });
  if (values.length === 0) return [];
  const bends = beyondFirstOrderOfOwn(
    values.map(({ value }) => value),
    setup.sampling.seed,
  );
  const sentences = values.flatMap((each) => {
    const bend = bends.get(each.value);
    const words =
      bend && bendInWords(bend, scaledWriter(fromBaseUnit(1, each.unit), each.unit.symbol === "" ? "" : ` ${each.unit.symbol}`));
    return words === undefined ? [] : wrapText(`${each.name}: ${words}.`, bullet);
  });
  return [...textTable(columns, values.map(row)), ...sentences];
}

const columns = [
  { title: "name", align: "left" },
  { title: "value", align: "right" },
  { title: "u", align: "right" },
  { title: "u/|y|", align: "right" },
  { title: "U", align: "right" },
  { title: "k", align: "right" },
  { title: "unit", align: "left" },
] as const;

/** Decimals of a value without doubt, at the most. */
const decimalsWhenExact = 6;

function row({ name, value, unit, dimension }: Named): string[] {
  const budget = soundBudget(value);
  if (!budget.ok) return [name, "-", "-", "-", "-", "-", unit.symbol];
  const figures = resultFigures(budget.value, fromBaseUnit(1, unit), decimalsWhenExact);
  return [
    name,
    figures.value,
    figures.standardUncertainty,
    relativeText(ownRelativeUncertainty(budget.value, dimension)),
    figures.expandedUncertainty,
    budget.value.standardUncertainty === 0 ? "-" : figures.coverageFactor,
    unit.symbol,
  ];
}
