import { type Outcome, success } from "../../lib/base/outcome.ts";
import { parseTable } from "../../lib/readings/parseTable.ts";
import type { EntryColumn } from "./column.ts";

export interface BlockTarget<Row extends object> {
  readonly rows: readonly Row[];
  /** The cell that takes the first cell of the block. */
  readonly index: number;
  readonly column: number;
  readonly columns: readonly EntryColumn<Row>[];
  /** A new row for what does not fit into the rows there are. */
  readonly blank: (rows: readonly Row[]) => Row;
}

export interface FilledBlock<Row extends object> {
  readonly rows: Row[];
  readonly filled: number;
  readonly added: number;
  /** What could not be entered, in words; its cells are as they were. */
  readonly refused: readonly string[];
}

/**
 * A block from a spreadsheet put into a table from one cell on, to the right and down; rows are added as
 * needed. If its first row names columns of the table, every cell goes where its name says.
 *
 * Without tabs, and where commas could be decimal marks, every line is one cell.
 */
export function fillBlock<Row extends object>(text: string, target: BlockTarget<Row>): Outcome<FilledBlock<Row>> {
  const parsed = parseTable(text, text.includes("\t") ? { separator: "\t" } : {});
  const table = parsed.ok ? parsed : parseTable(text, { separator: "\t" });
  if (!table.ok) return table;
  const named = table.value.header === undefined ? undefined : columnsNamed(table.value.header, target.columns);
  const block = named || table.value.header === undefined ? table.value.rows : [table.value.header, ...table.value.rows];

  const rows = [...target.rows];
  const refused: string[] = [];
  let filled = 0;
  block.forEach((cells, down) => {
    const index = target.index + down;
    let row = rows[index] ?? target.blank(rows);
    cells.forEach((cell, right) => {
      const column = named ? named[right] : target.columns[target.column + right];
      const written = column?.write(row, cell);
      if (written !== undefined) {
        filled += 1;
        row = written;
      } else if (cell !== "")
        refused.push(column === undefined ? `"${cell}" stands beyond the last column` : `"${cell}" is nothing that ${column.label} can be`);
    });
    rows[index] = row;
  });
  return success({ rows, filled, added: rows.length - target.rows.length, refused });
}

/** The columns that a header names; undefined unless it names at least half of its own. */
function columnsNamed<Row extends object>(
  header: readonly string[],
  columns: readonly EntryColumn<Row>[],
): readonly (EntryColumn<Row> | undefined)[] | undefined {
  const found = header.map((name) =>
    columns.find(({ key, label }) => [key, label].some((own) => own.toLowerCase() === name.toLowerCase())),
  );
  return found.filter((column) => column !== undefined).length * 2 >= header.length ? found : undefined;
}
