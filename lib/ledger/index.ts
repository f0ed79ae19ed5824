// What a cell of a person's own holds.

export type { CellValue, ColumnValues, Quantity } from "./cellValue.ts";
