/** A cell by the places of its row and of its column among those that are shown. */
export interface CellPlace {
  readonly row: number;
  readonly column: number;
}

/** A rectangle of cells; both ends belong to it. */
export interface CellRange {
  readonly top: number;
  readonly bottom: number;
  readonly left: number;
  readonly right: number;
}

/** The rectangle with these two cells at opposite corners. */
export function rangeBetween(a: CellPlace, b: CellPlace): CellRange {
  return {
    top: Math.min(a.row, b.row),
    bottom: Math.max(a.row, b.row),
    left: Math.min(a.column, b.column),
    right: Math.max(a.column, b.column),
  };
}

export function rowsOf({ top, bottom }: CellRange): number {
  return bottom - top + 1;
}

export function columnsOf({ left, right }: CellRange): number {
  return right - left + 1;
}
