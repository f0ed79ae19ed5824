/** A number that leaves in full, and as a person should read it. */
export interface ShownNumber {
  /** Finite. */
  readonly number: number;
  readonly shown: string;
}

/** A number, or anything else as text. */
export type ExchangeCell = string | number | ShownNumber;

/** A table on its way out. Columns say their unit where it is the same in every row; every row has one cell for each column. */
export interface ExchangeTable {
  /** What a heading says. */
  readonly title: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly ExchangeCell[])[];
}

/**
 * The number of a cell with all its digits (the shortest text that gives the same double), undefined for text.
 *
 * @throws RangeError for a number that is not finite: what has no end is told in words
 */
export function numberOf(cell: ExchangeCell): number | undefined {
  if (typeof cell === "string") return undefined;
  const number = typeof cell === "number" ? cell : cell.number;
  if (!Number.isFinite(number)) throw new RangeError(`cell: expected a finite number or a text, got ${number}`);
  return number;
}
