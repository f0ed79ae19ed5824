import { blankEntries } from "../../../lib/document/blankEntries.ts";
import type { MadeCorrectionEntry, MeasuredFeatureEntry, WarmUpReadingEntry } from "../../../lib/document/setupDocument.ts";
import type { CellContext, Column } from "../../inputs/column.ts";
import { DocumentTable, type TableEdits } from "../../inputs/documentTable.ts";
import { setupFormula } from "../../inputs/formulaPlace.ts";
import { freeName } from "../../inputs/rows.ts";
import { understandLength } from "../format.ts";
import type { SheetResults } from "../sheetResults.ts";
import { columnsOf } from "./columns.ts";
import { operationColumn } from "./operations.ts";

const length = { figures: true, understand: understandLength } as const;
const elementNames = ({ names }: CellContext) => ["", ...(names["elements"] ?? [])];

const feature = columnsOf<MeasuredFeatureEntry>();
const correction = columnsOf<MadeCorrectionEntry>();
const reading = columnsOf<WarmUpReadingEntry>();

const featureColumns: readonly Column<MeasuredFeatureEntry, SheetResults>[] = [
  feature.name(10),
  feature.text("part", "part", 6, { hint: "Which part of the run; parts stand in the order in which they were made" }),
  feature.choice("element", "element", 10, elementNames, { hint: "The element that was measured" }),
  feature.text("tool", "cut by", 9, { hint: "What cut it: a tool that pulls to one side is told from a zero that is off" }),
  ...(["x", "y", "z"] as const).map((axis) =>
    feature.text(axis, `off ${axis.toUpperCase()}`, 7, {
      ...length,
      hint: "Made less wanted, along the axes of the drawing; empty where not measured",
    }),
  ),
  feature.text("note", "note", 16, { kind: "long", usual: "" }),
];

export function measuredFeaturesTable(edits: TableEdits<MeasuredFeatureEntry>): DocumentTable<MeasuredFeatureEntry, SheetResults> {
  return new DocumentTable({
    place: "madeParts.measured",
    caption: "What was measured on parts made with the zero in use: the first one, and those that follow.",
    noun: "measured feature",
    columns: featureColumns,
    nameOf: ({ id }) => id,
    blank: (rows) => ({ ...blankEntries.measuredFeature(freeName("feature", idsOf(rows))), part: rows.at(-1)?.part ?? "1" }),
    edits,
  });
}

const correctionColumns: readonly Column<MadeCorrectionEntry, SheetResults>[] = [
  correction.name(10),
  correction.text("after", "after part", 6, { hint: "The last part that was made before it, as it is named above" }),
  operationColumn("Whose offset or tool was corrected; the first when empty"),
  correction.text("tool", "tool", 9, { hint: "The tool that was corrected, as it is named above under cut by; empty for the work offset" }),
  ...(["x", "y", "z"] as const).map((axis) =>
    correction.text(axis, `moved ${axis.toUpperCase()}`, 7, {
      ...length,
      hint: "How far what is cut from then on was to move, along the axes of the drawing; empty where nothing was changed",
    }),
  ),
  correction.text("note", "note", 16, { kind: "long", usual: "" }),
];

export function madeCorrectionsTable(edits: TableEdits<MadeCorrectionEntry>): DocumentTable<MadeCorrectionEntry, SheetResults> {
  return new DocumentTable({
    place: "madeParts.corrections",
    caption: "What was corrected between these parts, in the work offset or in one tool.",
    noun: "correction of the run",
    columns: correctionColumns,
    nameOf: ({ id }) => id,
    blank: (rows) => blankEntries.madeCorrection(freeName("correction", idsOf(rows))),
    edits,
  });
}

const readingColumns: readonly Column<WarmUpReadingEntry, SheetResults>[] = [
  reading.name(10),
  reading.text("minutes", "minutes", 7, { figures: true, formula: setupFormula, hint: "Since the machine was started" }),
  reading.text("reading", "reading", 10, length),
  reading.text("note", "note", 16, { kind: "long", usual: "" }),
];

export function warmUpReadingsTable(edits: TableEdits<WarmUpReadingEntry>): DocumentTable<WarmUpReadingEntry, SheetResults> {
  return new DocumentTable({
    place: "warmUp.readings",
    caption: "The same surface, read with the same tool again and again from a cold start.",
    noun: "warm-up reading",
    columns: readingColumns,
    nameOf: ({ id }) => id,
    blank: (rows) => blankEntries.warmUpReading(freeName("reading", idsOf(rows))),
    edits,
  });
}

function idsOf(rows: readonly { readonly id: string }[]): string[] {
  return rows.map(({ id }) => id);
}
