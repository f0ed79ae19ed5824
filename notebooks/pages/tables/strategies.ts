import { axes } from "../../../lib/base/vector.ts";
import type { StrategyEvaluation } from "../../../lib/decision/setupEvaluation.ts";
import { blankEntries } from "../../../lib/document/blankEntries.ts";
import type { StrategyEntry } from "../../../lib/document/setupDocument.ts";
import { secondOrderInWords } from "../../../lib/record/secondOrderInWords.ts";
import type { BentResult, StrategyBend } from "../../../lib/record/strategyBend.ts";
import { writerOf } from "../../figures/displayUnit.ts";
import { formatMet } from "../../figures/formatChance.ts";
import type { Column, ShownResult } from "../../inputs/column.ts";
import { DocumentTable, type TableEdits } from "../../inputs/documentTable.ts";
import { setupFormula } from "../../inputs/formulaPlace.ts";
import { freeName } from "../../inputs/rows.ts";
import { shownWithUncertainty } from "../format.ts";
import type { SheetResults } from "../sheetResults.ts";
import { columnsOf } from "./columns.ts";
import { operationColumn } from "./operations.ts";
import { unlikely } from "./part.ts";

const rotations = ["ignored", "measured", "applied"] as const satisfies readonly StrategyEntry["rotation"][];
const sizes = ["nominal", "measured"] as const satisfies readonly StrategyEntry["sizes"][];

const strategy = columnsOf<StrategyEntry>();

/** Results stand before the entries: they are what strategies are compared by. */
const columns: readonly Column<StrategyEntry, SheetResults>[] = [
  strategy.name(13, { kind: "long" }),
  operationColumn("Whose part zero it makes; of the first when empty"),
  ...axes.map(
    (axis, i): Column<StrategyEntry, SheetResults> => ({
      kind: "result",
      key: `zero ${axis}`,
      label: `${axis}0`,
      width: 9,
      hint: `Machine coordinate of part zero along ${axis}; beneath it the standard uncertainty`,
      show: ({ id }, results) => {
        const zero = solved(id, results)?.zero[i];
        return zero?.ok ? shownWithUncertainty(zero.value, results.evaluation.setup.unit, largestOf(i, results)) : undefined;
      },
    }),
  ),
  chanceColumn("thisPart", "all met, this part"),
  chanceColumn("batch", "all met, batch"),
  {
    kind: "result",
    key: "first order",
    label: "first order",
    width: 9,
    isAligned: false,
    hint: "Whether uncertainties to first order hold where the model bends, by the terms of second order; not looked at yet while something else is to be done",
    show: ({ id }, results) => {
      if (solved(id, results) === undefined) return undefined;
      if (results.bends === undefined) return { text: "not yet", tone: "soft" };
      const bend = results.bends.find(({ strategy: of }) => of === id);
      return bend && shownBend(bend, results.evaluation.setup.unit);
    },
  },
  {
    kind: "result",
    key: "rank",
    label: "rank",
    width: 4,
    isAligned: false,
    hint: "In the order of the chance that all characteristics are met",
    show: ({ id }, results) => {
      const rank = results.evaluation.ranking.order.indexOf(id);
      return solved(id, results) === undefined || rank < 0 ? undefined : { text: String(rank + 1), tone: rank === 0 ? "strong" : "soft" };
    },
  },
  strategy.names("touches", "touches", 16, { hint: "The touches that count, with commas between them" }),
  strategy.choice("fixtureFrame", "stays in", 8, ({ names }) => ["", ...(names["workFrames"] ?? [])], {
    usual: "",
    isWanted: ({ names }) => (names["workFrames"] ?? []).length > 0,
    hint: "The frame of a fixture whose locators say where the part lies: nothing on the part is touched",
  }),
  strategy.choice("rotation", "skew", 7, () => rotations, {
    only: rotations,
    hint: "Not looked at; measured for the zero alone; measured and applied to the coordinates",
  }),
  ...(["x", "y", "z"] as const).map((axis) =>
    strategy.nested("zero", axis, `${axis.toUpperCase()} zero at`, 6, {
      formula: setupFormula,
      hint: "An element, or a coordinate in the drawing's frame",
    }),
  ),
  strategy.names("orient", "turned by", 8, { usual: "", hint: "Faces whose touches only tell how the part is turned, not where it lies" }),
  strategy.names("hold", "holds", 8, {
    usual: "",
    isWanted: ({ names }) => (names["middles"] ?? []).length > 0,
    hint: "Middles that sit at their drawing place, whatever the width between their faces",
  }),
  strategy.choice("sizes", "sizes", 8, () => sizes, {
    only: sizes,
    usual: "nominal",
    hint: "Between a touched face and the datum: as drawn, or as measured on this part",
  }),
  strategy.text("note", "note", 22, { kind: "long", usual: "" }),
];

/** The result that is farthest off, and its u with the terms of second order. */
function shownBend({ results: [first, ...others] }: StrategyBend, unit: "mm" | "inch"): ShownResult {
  if (first === undefined) return { text: "holds", tone: "soft" };
  const worst = others.reduce((most, each) => (farOf(each.terms) > farOf(most.terms) ? each : most), first);
  const writer = writerOf(worst.unit === "rad" ? "degree" : unit);
  const component = worst.terms.reduce((most, each) => (farOf([each]) > farOf([most]) ? each : most));
  const so = component.ok ? `${worst.name}, u ${writer.withUncertainty(0, component.value.standardUncertainty).uncertainty}` : worst.name;
  const more = others.length > 0 ? `; nor does it hold for ${others.length} more of its results` : "";
  return { text: "does not hold", below: so, tone: "bad", title: `${worst.name}: ${secondOrderInWords(worst.terms, writer) ?? ""}${more}` };
}

/** How far u is off, as a share of it; without end where that is not known. */
function farOf(terms: BentResult["terms"]): number {
  return Math.max(
    ...terms.map((each) =>
      each.ok ? Math.abs(each.value.standardUncertainty - each.value.firstOrder) / each.value.firstOrder : Number.POSITIVE_INFINITY,
    ),
  );
}

function chanceColumn(view: SheetResults["view"], label: string): Column<StrategyEntry, SheetResults> {
  return {
    kind: "result",
    key: view,
    label,
    width: 8,
    isAligned: false,
    hint: "Chance that all characteristics are met at once",
    show: ({ id }, results) => {
      const chance = solved(id, results)?.[view].chanceOfAll;
      return chance?.ok ? { text: formatMet(chance.value.chance), tone: chance.value.chance < unlikely ? "bad" : "strong" } : undefined;
    },
  };
}

function solved(id: string, { evaluation }: SheetResults): StrategyEvaluation | undefined {
  const found = evaluation.strategies.find((strategy) => strategy.id === id)?.evaluation;
  return found?.ok ? found.value : undefined;
}

function largestOf(axis: number, { evaluation }: SheetResults): number {
  const all = evaluation.strategies.flatMap(({ evaluation: strategy }) => (strategy.ok ? (strategy.value.zero[axis] ?? []) : []));
  return Math.max(0, ...all.map((zero) => (zero.ok ? zero.value.standardUncertainty : 0)));
}

export interface StrategyChoice {
  readonly isChosen: (row: StrategyEntry) => boolean;
  readonly choose: (row: StrategyEntry) => void;
}

export function strategiesTable(
  edits: TableEdits<StrategyEntry>,
  { isChosen, choose }: StrategyChoice,
): DocumentTable<StrategyEntry, SheetResults> {
  return new DocumentTable({
    place: "strategies",
    caption: "Ways to make part zero out of the touches. All are worked out; the marked one is typed into the machine.",
    noun: "strategy",
    columns,
    nameOf: ({ id }) => id,
    blank: (rows) =>
      blankEntries.strategy(
        freeName(
          "strategy",
          rows.map(({ id }) => id),
        ),
      ),
    mark: { label: "use", isMarked: isChosen, onMark: choose },
    edits,
  });
}
