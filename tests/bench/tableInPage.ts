// What a benchmark runs inside a page: built as one script, its exports are values of the page.
import { success } from "../../lib/base/outcome.ts";
import { parseLength } from "../../lib/formula/parseQuantity.ts";
import type { CellContext, Column } from "../../notebooks/inputs/column.ts";
import { DocumentTable } from "../../notebooks/inputs/documentTable.ts";
import { changeRow } from "../../notebooks/inputs/rows.ts";
import { abandonSession, type DocumentHistory, recordEdit, startHistory } from "../../notebooks/pages/documentHistory.ts";

export { nothingBusy, painted } from "./waitInPage.ts";

interface Row {
  readonly id: string;
  readonly side: string;
  readonly at: string;
  readonly tolerance: string;
  readonly note: string;
}

const context: CellContext = { unit: "mm", names: {} };
const understand = (text: string) => {
  const parsed = parseLength(text, { unit: "mm" });
  return parsed.ok ? success(parsed.value.understoodAs) : parsed;
};
const entry = (key: keyof Row, more: object = {}): Column<Row, number> => ({
  kind: "text",
  key,
  label: key === "id" ? "name" : key,
  width: 10,
  read: (row) => row[key],
  write: (row, text) => changeRow(row, { [key]: text }),
  ...more,
});
const columns: readonly Column<Row, number>[] = [
  entry("id"),
  entry("side", { kind: "choice", choices: () => ["+X", "-X", "+Y", "-Y"] }),
  entry("at", { figures: true, understand }),
  entry("tolerance", { figures: true, understand, usual: "" }),
  entry("note", { kind: "long", usual: "" }),
  {
    kind: "result",
    key: "inches",
    label: "in inches",
    width: 10,
    show: ({ at }, perInch) => {
      const parsed = parseLength(at, { unit: "mm" });
      return parsed.ok ? { text: (parsed.value.value / perInch).toFixed(5) } : undefined;
    },
  },
];

/** A table of so many rows in the place of the page's first section, with a document's history behind it. */
export function openTable(count: number): void {
  const rows = Array.from(
    { length: count },
    (_, i): Row => ({ id: `hole ${i + 1}`, side: "+X", at: `-${400 + (i % 100) / 1000}`, tolerance: "", note: "" }),
  );
  let history: DocumentHistory<Row[]> = startHistory(rows);
  const become = (next: DocumentHistory<Row[]>) => {
    history = next;
    table.showRows(history.present, context);
    table.showProblems([]);
    table.showResults(25.4);
  };
  const table = new DocumentTable<Row, number>({
    place: "holes",
    caption: "Holes",
    noun: "hole",
    columns,
    nameOf: ({ id }) => id,
    blank: (all) => ({ id: `hole ${all.length + 1}`, side: "+X", at: "", tolerance: "", note: "" }),
    edits: {
      edit: (change, what, session) => become(recordEdit(history, change, what, session)),
      rename: (index, id, session) =>
        become(recordEdit(history, (all) => all.map((row, i) => (i === index ? changeRow(row, { id }) : row)), "name", session)),
      abandon: (session) => become(abandonSession(history, session)),
      say: () => {},
      stand: () => {},
    },
  });
  document.querySelector("main")?.replaceChildren(table.element);
  become(history);
}
