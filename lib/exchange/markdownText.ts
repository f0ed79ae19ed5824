import { oneLine } from "../base/oneLine.ts";
import { type ExchangeCell, type ExchangeTable, numberOf } from "./exchangeTable.ts";

/**
 * Tables as Markdown: a heading and a table of pipes each, numbers to the right and as a person should read them. Tables are an extension that the
 * common dialects share (GitHub Flavored Markdown, 4.10); every sign that means something in CommonMark is escaped, so that a name stays a name.
 */
export function markdownText(tables: readonly ExchangeTable[]): string {
  return tables.map(tableText).join("\n");
}

function tableText({ title, columns, rows }: ExchangeTable): string {
  const isNumber = columns.map((_, i) => rows.length > 0 && rows.every((row) => typeof row[i] !== "string" || row[i] === ""));
  const line = (cells: readonly string[]) => `| ${cells.join(" | ")} |`;
  return [
    `## ${escaped(title)}`,
    "",
    line(columns.map(escaped)),
    line(isNumber.map((right) => (right ? "---:" : "---"))),
    ...rows.map((row) => line(row.map(cellText))),
    "",
  ].join("\n");
}

function cellText(cell: ExchangeCell): string {
  const number = numberOf(cell);
  if (number === undefined) return escaped(cell as string);
  return typeof cell === "object" ? cell.shown : String(number);
}

/** CommonMark, 2.4: a backslash before any ASCII punctuation makes it itself. */
function escaped(text: string): string {
  return oneLine(text).replace(/[\\`*_~[\]<>|&#!$]/g, "\\$&");
}
