import type { EntryColumn } from "../column.ts";
import type { EntryCell } from "../entryCell.ts";
import { insertRows, moveRows, removeRows } from "../rows.ts";
import { withoutItInWords } from "../withoutItInWords.ts";
import { type CellRange, columnsOf, rowsOf } from "./cellRange.ts";
import { editRange, refusedInWords } from "./rangeEdits.ts";
import { sortRows } from "./sortRows.ts";
import type { TableAtHand } from "./tableAtHand.ts";

/** What can be done with the range that a person selected, or with the cell or row that they stand on: each one step of the history. */
export class RangeActs<Row extends object, Results> {
  private readonly table: TableAtHand<Row, Results>;

  constructor(table: TableAtHand<Row, Results>) {
    this.table = table;
  }

  /** New rows beside the range, as many as it has; one where nothing is selected. */
  insert(side: 0 | 1): void {
    const { edits, blank, noun, selection, rows: all } = this.table;
    const { top, bottom } = this.table.selectedRows();
    const count = top < 0 || !selection.isWide ? 1 : bottom - top + 1;
    const index = top < 0 ? all.all.length : side === 0 ? top : bottom + 1;
    const added: Row[] = [];
    for (let i = 0; i < count; i++) added.push(blank([...all.all, ...added]));
    edits.edit((rows) => insertRows(rows, index, added), count === 1 ? `new ${noun}` : `${count} new rows`);
    this.table.focusRow(index);
  }

  move(by: number): void {
    const { top, bottom } = this.table.selectedRows();
    if (top < 0) return;
    const what = top === bottom ? `place of ${this.table.rows.nameAt(top)}` : `place of ${bottom - top + 1} rows`;
    this.table.edits.edit((rows) => moveRows(rows, top, bottom - top + 1, by), what);
    this.table.showHead();
  }

  remove(): void {
    const { edits } = this.table;
    const { top, bottom } = this.table.selectedRows();
    if (top < 0) return;
    const count = bottom - top + 1;
    const what = count === 1 ? this.table.rows.nameAt(top) : `${count} rows`;
    const missing = edits.missing?.(this.table.rows.all.slice(top, bottom + 1)) ?? [];
    edits.edit((rows) => removeRows(rows, top, count), `removal of ${what}`);
    const [are, them] = count === 1 ? (["is", "it"] as const) : (["are", "them"] as const);
    edits.say(`${what} ${are} removed; undo brings ${them} back.${withoutItInWords(missing, them)}`);
    this.table.focusRow(top);
  }

  /** Every row in the order of the column that one stands in; where they are in it already, the other way round. */
  sort(): void {
    const { edits } = this.table;
    const column = this.table.shown[this.table.selection.headPlace?.column ?? -1];
    if (column === undefined) return;
    const before = this.table.rows.all as Row[];
    const ascending = sortRows(before, column, this.table.context, this.table.results, "ascending");
    const direction = ascending === before ? "descending" : "ascending";
    const sorted = direction === "ascending" ? ascending : sortRows(before, column, this.table.context, this.table.results, direction);
    if (sorted === before) {
      edits.say(`All rows are alike in ${column.label}; their order stays.`);
      return;
    }
    this.table.selection.collapse();
    edits.edit(() => sorted, `order by ${column.label}`);
    edits.say(`In the order of ${column.label}, ${direction}; undo brings the former order back.`);
    this.table.showHead();
  }

  clear(): void {
    const { range } = this.table.selection;
    if (range === undefined) return;
    this.editCells(range, () => "", { done: "emptied", refused: "cannot be empty" });
  }

  /** What is in the first row of the range goes into the rows below it; of one row, what is in the row above it. */
  fillDown(): void {
    const { range } = this.table.selection;
    if (range === undefined) return;
    const isOneRow = range.top === range.bottom;
    const source = this.table.rows.all[isOneRow ? range.top - 1 : range.top];
    if (source === undefined) return;
    const target = isOneRow ? range : { ...range, top: range.top + 1 };
    this.editCells(target, (column) => column.read(source), { done: "filled", refused: "cannot take it" });
  }

  /** The text of the cell that one stands on, finished or not, goes into the whole range. */
  fill(cell: EntryCell): void {
    const { range } = this.table.selection;
    const text = cell.control.value;
    const session = cell.currentSession;
    if (range === undefined) return;
    if (this.table.selection.isWide) this.editCells(range, () => text, { done: "filled", refused: "cannot take it", session });
    cell.endEditing();
  }

  private editCells(
    range: CellRange,
    textFor: (column: EntryColumn<Row>) => string,
    { done, refused, session }: { readonly done: string; readonly refused: string; readonly session?: object | undefined },
  ): void {
    const { edits } = this.table;
    const isFill = done === "filled";
    // Names are of their own: one for all rows would name none of them.
    const isName = (column: EntryColumn<Row>) => column.key === "id" && isFill && rowsOf(range) * columnsOf(range) > 1;
    const edited = editRange(this.table.rows.all, this.table.shown, range, (column) => (isName(column) ? undefined : textFor(column)));
    if (edited.changed > 0) edits.edit(() => edited.rows, `${edited.changed} cells ${done}`, session);
    const left = refusedInWords(edited.refused);
    const names = this.table.shown.slice(range.left, range.right + 1).some((column) => column.kind !== "result" && isName(column));
    edits.say(
      [
        `${edited.changed} ${edited.changed === 1 ? "cell" : "cells"} ${done}${edited.changed > 0 ? "; undo takes it back" : ""}.`,
        left === "" ? "" : `As before, since they ${refused}: ${left}.`,
        names ? "Names stay as they are: every row has its own." : "",
      ]
        .filter((sentence) => sentence !== "")
        .join(" "),
    );
  }
}
