import { blankEntries } from "../../../lib/document/blankEntries.ts";
import type { CorrelationEntry } from "../../../lib/document/setupDocument.ts";
import { correlationText } from "../../../lib/record/correlationText.ts";
import type { Column } from "../../inputs/column.ts";
import { DocumentTable, type TableEdits } from "../../inputs/documentTable.ts";
import { setupFormula } from "../../inputs/formulaPlace.ts";
import { freeName } from "../../inputs/rows.ts";
import type { SheetResults } from "../sheetResults.ts";
import { columnsOf } from "./columns.ts";

const evidences = [
  "stated",
  "certificate",
  "published",
  "shop default",
  "read together",
] as const satisfies readonly CorrelationEntry["evidence"][];

const correlation = columnsOf<CorrelationEntry>();

const columns: readonly Column<CorrelationEntry, SheetResults>[] = [
  correlation.name(12),
  correlation.choice("one", "this doubt", 22, ({ names }) => ["", ...(names["doubts"] ?? [])], {
    hint: "A source, as budgets list it; of a cell of one's own: cell and its name",
  }),
  correlation.choice("other", "and this one", 22, ({ names }) => ["", ...(names["doubts"] ?? [])], {
    hint: "The source that goes together with it",
  }),
  correlation.text("coefficient", "coefficient", 7, {
    figures: true,
    formula: setupFormula,
    hint: "From -1 to 1, also a formula over cells; empty where it comes from readings that were taken together",
  }),
  correlation.choice("evidence", "rests on", 10, () => evidences, {
    only: evidences,
    hint: "Read together: the first reading of one was taken with the first of the other, the second with the second",
  }),
  {
    kind: "result",
    key: "correlation in use",
    label: "in use",
    width: 7,
    hint: "The coefficient that results rest on, as stated or as the readings give it",
    show: ({ id }, { related }) => {
      const pair = related.find(({ place }) => place === `correlations.${id}`);
      return pair && { text: correlationText(pair.coefficient).replace("-", "−") };
    },
  },
  correlation.text("note", "note", 16, { kind: "long", usual: "" }),
];

export function correlationsTable(edits: TableEdits<CorrelationEntry>): DocumentTable<CorrelationEntry, SheetResults> {
  return new DocumentTable({
    place: "correlations",
    caption:
      "Doubts that err together, two by two: a ring on which two styli were calibrated, readings that were taken at one time, a gauge in a cell and the tool that it has measured.",
    noun: "correlation",
    columns,
    nameOf: ({ id }) => id,
    blank: (rows) =>
      blankEntries.correlation(
        freeName(
          "pair",
          rows.map(({ id }) => id),
        ),
      ),
    edits,
  });
}
