import { blankEntries } from "../../../lib/document/blankEntries.ts";
import type { OperationEntry } from "../../../lib/document/setupDocument.ts";
import { registers } from "../../../lib/equipment/equipment.ts";
import { partLies } from "../../../lib/part/partLies.ts";
import type { CellContext, Column, EntryColumn } from "../../inputs/column.ts";
import { DocumentTable, type TableEdits } from "../../inputs/documentTable.ts";
import { changeRow, freeName } from "../../inputs/rows.ts";
import type { SheetResults } from "../sheetResults.ts";
import { columnsOf } from "./columns.ts";

const operation = columnsOf<OperationEntry>();
const registerChoices = ["", ...registers] as const;

const columns: readonly Column<OperationEntry, SheetResults>[] = [
  operation.name(6),
  operation.choice("lies", "the part lies", 16, () => partLies, {
    only: partLies,
    hint: "Seen from the drawing. What is said of the part stays in the drawing's frame; what the screen shows is the machine's",
  }),
  operation.choice("chosen", "strategy in use", 18, ({ names }) => ["", ...(names["strategies"] ?? [])], {
    hint: "What is cut by it is what later operations find",
  }),
  operation.choice("register", "register", 6, () => registerChoices, {
    only: registerChoices,
    usual: "",
    hint: "The machine's when empty",
  }),
  operation.text("note", "note", 22, { kind: "long", usual: "" }),
];

export interface OperationView {
  readonly isLookedAt: (row: OperationEntry) => boolean;
  readonly lookAt: (row: OperationEntry) => void;
}

export function operationsTable(
  edits: TableEdits<OperationEntry>,
  { isLookedAt, lookAt }: OperationView,
): DocumentTable<OperationEntry, SheetResults> {
  return new DocumentTable({
    place: "operations",
    caption: "Clampings of the same part in their order; none where there is one. What belongs to one says so.",
    noun: "operation",
    columns,
    nameOf: ({ id }) => id,
    blank: (rows) => blankEntries.operation(nextName(rows.map(({ id }) => id))),
    mark: { label: "look", isMarked: isLookedAt, onMark: lookAt },
    edits,
  });
}

/** Operations are numbered in tens. */
function nextName(names: readonly string[]): string {
  const numbers = names.map(Number).filter((number) => Number.isInteger(number));
  const next = String(10 * (Math.floor(Math.max(0, ...numbers) / 10) + 1));
  return names.includes(next) ? freeName("operation", names) : next;
}

/** In which of several operations a row belongs; the first where nothing is chosen. Only shown where there are several. */
export function operationColumn<Row extends { readonly operation?: string | undefined }>(hint: string): EntryColumn<Row> {
  return {
    kind: "choice",
    key: "operation",
    label: "operation",
    width: 6,
    choices: ({ names }: CellContext) => ["", ...(names["operations"] ?? [])],
    usual: "",
    isWanted: ({ names }) => (names["operations"] ?? []).length > 0,
    hint,
    read: (row) => row.operation ?? "",
    write: (row, text) =>
      text === (row.operation ?? "") ? row : changeRow(row, { operation: text === "" ? undefined : text } as Partial<Row>),
  };
}
