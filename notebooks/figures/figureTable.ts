/** What stands behind a figure, for reading, copying and screen readers: every row has an entry for every column. */
export interface FigureTable {
  readonly caption: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly string[])[];
}
