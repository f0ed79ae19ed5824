import type { Column } from "./column.ts";

/** A table for the clipboard, as spreadsheets take it: a row of names, then entries as typed and results as shown, parted by tabs. */
export function tableAsText<Row extends object, Results>(
  rows: readonly Row[],
  columns: readonly Column<Row, Results>[],
  results: Results | undefined,
): string {
  const textOf = (row: Row, column: Column<Row, Results>) => {
    if (column.kind !== "result") return column.read(row);
    return (results === undefined ? undefined : column.show(row, results)?.text) ?? "";
  };
  return [columns.map(({ label }) => label), ...rows.map((row) => columns.map((column) => textOf(row, column)))].map(line).join("\n");
}

/** Quotes as RFC 4180 has them. */
function line(cells: readonly string[]): string {
  return cells.map((cell) => (/["\t\r\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell)).join("\t");
}
