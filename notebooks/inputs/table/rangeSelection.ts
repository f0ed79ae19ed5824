import { type CellPlace, type CellRange, columnsOf, rangeBetween, rowsOf } from "./cellRange.ts";

/** A cell by what it is, wherever it stands after a sort or a move. */
interface CellKey {
  readonly row: string;
  readonly column: string;
}

/** What a selection knows of the table that it lies in. */
export interface Grid {
  rowIndex(key: string): number;
  rowKey(index: number): string | undefined;
  columnIndex(key: string): number;
  columnKey(index: number): string | undefined;
}

/**
 * The range of cells that a person selected: from the cell that they stand on, the anchor, to another, the head. It follows
 * its two rows through edits, and is gone when one of them is.
 */
export class RangeSelection {
  private readonly grid: Grid;
  private anchor: CellKey | undefined;
  private head: CellKey | undefined;
  private readonly onChange: () => void;

  constructor(grid: Grid, onChange: () => void) {
    this.grid = grid;
    this.onChange = onChange;
  }

  /** Stands on one cell; a range that began there stays. */
  stand(row: string, column: string): void {
    if (this.anchor?.row === row && this.anchor.column === column) return;
    this.anchor = { row, column };
    this.head = undefined;
    this.onChange();
  }

  collapse(): void {
    if (this.head === undefined) return;
    this.head = undefined;
    this.onChange();
  }

  /** From one place to another; `anchor` undefined keeps the one there is. */
  select(anchor: CellPlace | undefined, head: CellPlace): void {
    const begins = anchor === undefined ? this.anchor : this.keyAt(anchor);
    const ends = this.keyAt(head);
    if (begins === undefined || ends === undefined) return;
    if (same(begins, this.anchor) && same(ends, this.head)) return;
    this.anchor = begins;
    this.head = same(begins, ends) ? undefined : ends;
    this.onChange();
  }

  get anchorPlace(): CellPlace | undefined {
    return this.placeOf(this.anchor);
  }

  /** Where the range ends that began at the anchor; the anchor itself for a cell alone. */
  get headPlace(): CellPlace | undefined {
    return this.placeOf(this.head) ?? this.anchorPlace;
  }

  /** The cells selected, the one that is stood on if it is alone; undefined where a person stands nowhere. */
  get range(): CellRange | undefined {
    const [anchor, head] = [this.anchorPlace, this.headPlace];
    return anchor === undefined || head === undefined ? undefined : rangeBetween(anchor, head);
  }

  /** Whether more than one cell is selected. */
  get isWide(): boolean {
    const { range } = this;
    return range !== undefined && rowsOf(range) * columnsOf(range) > 1;
  }

  private placeOf(key: CellKey | undefined): CellPlace | undefined {
    if (key === undefined) return undefined;
    const [row, column] = [this.grid.rowIndex(key.row), this.grid.columnIndex(key.column)];
    return row < 0 || column < 0 ? undefined : { row, column };
  }

  private keyAt({ row, column }: CellPlace): CellKey | undefined {
    const [rowKey, columnKey] = [this.grid.rowKey(row), this.grid.columnKey(column)];
    return rowKey === undefined || columnKey === undefined ? undefined : { row: rowKey, column: columnKey };
  }
}

function same(a: CellKey, b: CellKey | undefined): boolean {
  return a.row === b?.row && a.column === b.column;
}
