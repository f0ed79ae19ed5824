import type { EntryColumn } from "../column.ts";
import { cellOf } from "../entryCell.ts";
import { type CellRange, columnsOf, rowsOf } from "./cellRange.ts";
import { asHtmlTable, asTabbedText, resultsIn, textsOf } from "./cellsAsText.ts";
import type { BlockTarget, ReadBlock } from "./readBlock.ts";
import type { TableAtHand } from "./tableAtHand.ts";
import { takeBlock } from "./takeBlock.ts";
import { withoutColumns } from "./withoutColumns.ts";

/** Blocks of cells from a table to the clipboard and back. */
export class TableClipboard<Row extends object, Results> {
  private readonly table: TableAtHand<Row, Results>;

  constructor(table: TableAtHand<Row, Results>) {
    this.table = table;
  }

  asText(): string {
    const columns = this.table.shown;
    return asTabbedText([columns.map(({ label }) => label), ...textsOf(this.table.rows.all, columns, this.table.results)]);
  }

  /** @returns whether the range was copied here, and not by the browser the text within a cell */
  copied(event: ClipboardEvent): boolean {
    const { range } = this.table.selection;
    const cell = cellOf(event.target as Element);
    if (range === undefined || event.clipboardData === null || (cell === undefined ? !this.table.selection.isWide : cell.isEdited))
      return false;
    event.preventDefault();
    const columns = this.table.shown.slice(range.left, range.right + 1);
    const cells = textsOf(this.table.rows.all.slice(range.top, range.bottom + 1), columns, this.table.results);
    const results = columns.flatMap(({ kind }, i) => (kind === "result" ? [i] : []));
    event.clipboardData.setData("text/plain", asTabbedText(cells));
    event.clipboardData.setData("text/html", asHtmlTable(cells, results));
    if (this.table.selection.isWide && event.type === "copy") this.table.edits.say(`${rowsOf(range) * columnsOf(range)} cells are copied.`);
    return true;
  }

  /** A block goes into the table; into a cell alone goes its text, as the browser does it. */
  pasted(event: ClipboardEvent): void {
    const cell = cellOf(event.target as Element);
    const place = this.table.selection.range;
    const text = event.clipboardData?.getData("text/plain") ?? "";
    if (cell === undefined || cell.isEdited || place === undefined || text === "") return;
    const isBlock = /[\t\r\n]/.test(text.trimEnd());
    if (!isBlock && !this.table.selection.isWide && !(cell.control instanceof HTMLSelectElement)) return;
    event.preventDefault();
    const copiedResults = resultsIn(event.clipboardData?.getData("text/html") ?? "");
    this.take(copiedResults.length === 0 ? text : withoutColumns(text, copiedResults), place, cell.control);
  }

  private take(text: string, range: CellRange, near: Element): void {
    const { edits, blank } = this.table;
    const columns = this.table.shown.filter((column): column is EntryColumn<Row> => column.kind !== "result");
    const entries = this.table.shown.slice(range.left, range.right + 1).filter(({ kind }) => kind !== "result");
    const first = columns.findIndex((column) => this.table.placeOf(column.key) >= range.left);
    if (first < 0) {
      edits.say("Nothing was pasted: there is no entry to the right of here.");
      return;
    }
    const target: BlockTarget<Row> = {
      rows: this.table.rows.all,
      index: range.top,
      column: first,
      height: rowsOf(range),
      width: entries.length,
      columns,
      blank,
      context: this.table.context,
    };
    takeBlock(text, target, { onTake: (block) => this.enterBlock(block, columns), say: (words) => edits.say(words), near });
  }

  private enterBlock(
    { rows, filled, added, refused, index, height, left, right }: ReadBlock<Row>,
    columns: readonly EntryColumn<Row>[],
  ): void {
    const { edits } = this.table;
    edits.edit(() => rows, "pasted block");
    const placeOf = (i: number) => Math.max(0, this.table.placeOf(columns[i]?.key ?? ""));
    this.table.selection.select({ row: index, column: placeOf(left) }, { row: index + height - 1, column: placeOf(right) });
    const more = added > 0 ? `, ${added} ${added === 1 ? "row" : "rows"} added` : "";
    const out = refused.length > 0 ? ` Left out: ${refused.join("; ")}.` : "";
    edits.say(`${filled} ${filled === 1 ? "cell" : "cells"} filled${more}; undo takes it back.${out}`);
  }
}
