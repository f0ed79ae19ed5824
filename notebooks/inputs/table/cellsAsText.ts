import type { Column } from "../column.ts";

/** The texts of cells: entries as typed, results as shown. */
export function textsOf<Row extends object, Results>(
  rows: readonly Row[],
  columns: readonly Column<Row, Results>[],
  results: Results | undefined,
): string[][] {
  return rows.map((row) =>
    columns.map((column) => {
      if (column.kind !== "result") return column.read(row);
      const text = (results === undefined ? undefined : column.show(row, results)?.text) ?? "";
      // The minus sign of print is no number to other programs.
      return text.replace(/^−(?=[\d.])/u, "-");
    }),
  );
}

/** Cells for the clipboard, as spreadsheets take them: parted by tabs, quoted as RFC 4180 has it. */
export function asTabbedText(cells: readonly (readonly string[])[]): string {
  return cells.map((row) => row.map(quoted).join("\t")).join("\n");
}

function quoted(cell: string): string {
  return /["\t\r\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
}

/** The same as a table for programs that take formatted text. `results` are the places of columns that a paste here passes over. */
export function asHtmlTable(cells: readonly (readonly string[])[], results: readonly number[]): string {
  const table = document.createElement("table");
  if (results.length > 0) table.setAttribute(resultsAttribute, results.join(" "));
  for (const row of cells) {
    const line = table.insertRow();
    for (const cell of row) line.insertCell().textContent = cell;
  }
  return table.outerHTML;
}

/** Which columns of a block that was copied here were results; none for a block from elsewhere. */
export function resultsIn(htmlText: string): readonly number[] {
  const found = new RegExp(`${resultsAttribute}="([\\d ]+)"`).exec(htmlText);
  return found === null ? [] : (found[1] ?? "").split(" ").map(Number);
}

const resultsAttribute = "data-results";
