import type { CellContext, Column } from "../column.ts";
import type { TableEdits } from "../documentTable.ts";
import type { RangeSelection } from "./rangeSelection.ts";
import type { TableRows } from "./tableRows.ts";

/** A table as those see it who edit ranges of it. */
export interface TableAtHand<Row extends object, Results> {
  readonly rows: TableRows<Row>;
  readonly selection: RangeSelection;
  /** Columns that are shown, in their order. */
  readonly shown: readonly Column<Row, Results>[];
  readonly context: CellContext;
  readonly results: Results | undefined;
  readonly edits: TableEdits<Row>;
  /** One row, in words. */
  readonly noun: string;
  readonly blank: (rows: readonly Row[]) => Row;
  /** Where a column stands among those shown; -1 for one that is hidden. */
  placeOf(column: string): number;
  /** Rows of the range, or the one that is stood on; -1 for none. */
  selectedRows(): { readonly top: number; readonly bottom: number };
  /** Puts the focus on the first entry of a row, or of the last one. */
  focusRow(index: number): void;
  /** Scrolls to the cell at the head of the range. */
  showHead(): void;
}
