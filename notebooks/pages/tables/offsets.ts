import { describeProblem, success } from "../../../lib/base/outcome.ts";
import { blankEntries } from "../../../lib/document/blankEntries.ts";
import type { OffsetEntry } from "../../../lib/document/setupDocument.ts";
import { offsetKinds, offsetRests } from "../../../lib/equipment/offsetLog.ts";
import { parseStatement } from "../../../lib/formula/parseStatement.ts";
import { offsetsAfter } from "../../../lib/offsets/offsetTable.ts";
import { writerOf } from "../../figures/displayUnit.ts";
import type { Column, EntryColumn } from "../../inputs/column.ts";
import { DocumentTable, type TableEdits } from "../../inputs/documentTable.ts";
import { setupFormula } from "../../inputs/formulaPlace.ts";
import { freeName, keyOf } from "../../inputs/rows.ts";
import { plainDecimals } from "../format.ts";
import type { SheetResults } from "../sheetResults.ts";
import { columnsOf } from "./columns.ts";

const row = columnsOf<OffsetEntry>();
const axes = ["x", "y", "z"] as const;

/** A value with or without a doubt; what it comes to is told beside the sums. */
const value = {
  figures: true,
  formula: setupFormula,
  understand: (text: string) => {
    const parsed = parseStatement(text);
    return parsed.ok ? success("") : parsed;
  },
} as const;

const entryColumns: readonly EntryColumn<OffsetEntry>[] = [
  row.name(12),
  row.choice("kind", "what", 13, () => offsetKinds, { only: offsetKinds }),
  row.text("register", "register", 7, { hint: "G54 to G59.3, or P10 on; empty for a global shift, and to restore everything" }),
  ...axes.map((axis) =>
    row.text(axis, axis.toUpperCase(), 19, {
      ...value,
      hint: "Along the machine's axis, with or without a doubt, such as -412.607 mm ± 0.002 mm; empty where the row says nothing of it",
    }),
  ),
  row.text("turn", "turn, °", 9, { ...value, usual: "", hint: "Of the coordinates about Z; a bare number is degrees" }),
  row.text("nest", "for nest", 7, { usual: "", hint: "Local shift: the nest or second part that it is for" }),
  row.text("restores", "state after", 9, { usual: "", hint: "Restore: the row after which the offsets stood as they are to stand again" }),
  row.choice("rests", "rests", 12, () => ["", ...offsetRests], {
    only: ["", ...offsetRests],
    usual: "",
    hint: "Measured zero: whether other touches than those above have found it, of the part as it lies; only then is it evidence beside them",
  }),
  row.text("why", "why", 22, { kind: "long" }),
  row.text("when", "when", 14),
  row.text("who", "who", 6),
];

/** What is said where rows that stand were to be removed, moved or filled. */
export const rowsStand = "Rows of the log stay as they are, but for the last one: log what changes in a new row.";
const stands = "This row stands: log what changes in a new row.";

/** @param isOpen whether a row can still be written */
export function offsetsTable(
  edits: TableEdits<OffsetEntry>,
  isOpen: (row: OffsetEntry) => boolean,
): DocumentTable<OffsetEntry, SheetResults> {
  const columns: Column<OffsetEntry, SheetResults>[] = entryColumns.map((column) => ({
    ...column,
    write: (before, text) => (isOpen(before) || column.read(before) === text ? column.write(before, text) : undefined),
    closed: (before) => (isOpen(before) ? undefined : stands),
  }));
  return new DocumentTable({
    place: "offsets",
    caption: "What was put into the controller's offsets, oldest first. Rows are only added: the last one can still be changed.",
    noun: "row",
    columns,
    nameOf: ({ id }) => id,
    blank: (rows) =>
      blankEntries.offset(
        freeName(
          "row",
          rows.map(({ id }) => id),
        ),
      ),
    about: ({ id }, results) => sumsAfter(id, results),
    edits,
  });
}

/** The sums in force after a row, in one line. */
function sumsAfter(id: string, results: SheetResults | undefined): string {
  const offsets = results?.evaluation.offsets;
  const then = offsets && offsetsAfter(offsets.history, id);
  if (results === undefined || then === undefined) return "";
  const { unit } = results.evaluation.setup;
  const writer = writerOf(unit);
  const told = then.registers.map(({ register, coordinates }) => {
    const sums = coordinates
      .slice(0, 3)
      .flatMap(({ coordinate, sum }) => (sum.ok ? [`${coordinate} ${writer.fixed(sum.value.value, plainDecimals[unit])}`] : []));
    const why = coordinates.flatMap(({ sum }) => (sum.ok ? [] : sum.problems));
    return `${register} ${
      sums.length > 0
        ? sums.join(" ")
        : why
            .slice(0, 1)
            .map((problem) => describeProblem({ ...problem, at: "" }))
            .join(" ")
    }`;
  });
  return `In force after this row: ${told.join("; ")}.`;
}

/** Whether an edit wanted more than `onlyAdded` has made of it: rows that stand were to be changed, removed or moved. */
export function leavesStanding(before: readonly OffsetEntry[], wanted: readonly OffsetEntry[], made: readonly OffsetEntry[]): boolean {
  const known = new Set(before.map(keyOf));
  const kept = (rows: readonly OffsetEntry[]) => rows.filter((each) => known.has(keyOf(each)));
  const [asked, left] = [kept(wanted), kept(made)];
  return asked.length !== left.length || asked.some((each, i) => each !== left[i]);
}

/**
 * The log after an edit: rows that stand stay as they are, in their order; what was added comes behind them. The same list where nothing is left of the
 * edit.
 */
export function onlyAdded(before: OffsetEntry[], after: OffsetEntry[], isOpen: (row: OffsetEntry) => boolean): OffsetEntry[] {
  const there = new Map(after.map((each) => [keyOf(each), each]));
  const kept = before.flatMap((each) => {
    const now = there.get(keyOf(each));
    return isOpen(each) ? (now === undefined ? [] : [now]) : [each];
  });
  const known = new Set(before.map(keyOf));
  const all = [...kept, ...after.filter((each) => !known.has(keyOf(each)))];
  return all.length === before.length && all.every((each, i) => each === before[i]) ? before : all;
}
