import type { Column, EntryColumn } from "../column.ts";
import type { CellRange } from "./cellRange.ts";

/** What an edit of several cells came to. */
export interface EditedRange<Row> {
  readonly rows: Row[];
  /** How many cells hold another text than before. */
  readonly changed: number;
  /** By column: how many cells could not take the text and are as they were. */
  readonly refused: ReadonlyMap<string, number>;
}

/** The text that a cell gets; undefined leaves it as it is. */
type NewText<Row extends object> = (column: EntryColumn<Row>, row: Row, index: number) => string | undefined;

/** The rows with a text entered into every entry of a range. Results are passed over. */
export function editRange<Row extends object>(
  rows: readonly Row[],
  columns: readonly Column<Row, never>[],
  { top, bottom, left, right }: CellRange,
  textFor: NewText<Row>,
): EditedRange<Row> {
  const entries = columns.slice(left, right + 1).filter((column): column is EntryColumn<Row> => column.kind !== "result");
  const refused = new Map<string, number>();
  const edited = [...rows];
  let changed = 0;
  for (let index = top; index <= Math.min(bottom, rows.length - 1); index++) {
    for (const column of entries) {
      const row = edited[index] as Row;
      const text = textFor(column, row, index);
      if (text === undefined || text === column.read(row)) continue;
      const written = column.write(row, text);
      if (written === undefined) refused.set(column.label, (refused.get(column.label) ?? 0) + 1);
      else if (written !== row) {
        edited[index] = written;
        changed += 1;
      }
    }
  }
  return { rows: edited, changed, refused };
}

/** In words: `2 cells of name`. */
export function refusedInWords(refused: ReadonlyMap<string, number>): string {
  return [...refused].map(([label, count]) => `${count} ${count === 1 ? "cell" : "cells"} of ${label}`).join(", ");
}
