import { defused } from "./defused.ts";
import { type ExchangeCell, type ExchangeTable, numberOf } from "./exchangeTable.ts";

export interface CsvOptions {
  /** With a comma, semicolons part the cells; a point unless given. */
  readonly decimalMark?: "." | ",";
}

/**
 * A table as comma-separated values (RFC 4180, clause 2): the row of names first, every line ended by CR LF, cells with a
 * separator, a quote or a line end in quotes, quotes inside doubled.
 *
 * Numbers have all their digits. A text that a spreadsheet program would take for a formula is `defused`.
 */
export function csvText({ columns, rows }: ExchangeTable, { decimalMark = "." }: CsvOptions = {}): string {
  const separator = decimalMark === "," ? ";" : ",";
  const line = (cells: readonly ExchangeCell[]) => `${cells.map((cell) => cellText(cell, decimalMark)).join(separator)}\r\n`;
  return [columns, ...rows].map(line).join("");
}

function cellText(cell: ExchangeCell, decimalMark: "." | ","): string {
  const number = numberOf(cell);
  if (number !== undefined) return String(number === 0 ? 0 : number).replace(".", decimalMark);
  const text = defused(cell as string);
  // Blanks at the ends belong to a cell (RFC 4180, clause 2.4), and many readers take them off outside quotes.
  return /[",;\t\r\n]|^\s|\s$/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
