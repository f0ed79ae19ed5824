import { oneLine } from "../../base/oneLine.ts";
import type { Block, Paper } from "./paper.ts";

/**
 * A sheet as comma-separated values (RFC 4180): section, row, column, text. One cell of a table, sentence or entry to a line, so that every sheet has the
 * same four columns. A text that a spreadsheet would take for a formula gets an apostrophe before it, and stays a text.
 */
export function paperCsv({ kind, title, facts, sections }: Paper): string {
  const rows = [
    ["section", "row", "column", "text"],
    ["", "", "sheet", kind],
    ["", "", "title", title],
    ...facts.map(({ name, value }) => ["", "", name, value]),
    ...sections.flatMap((section) => section.blocks.flatMap((block) => blockRows(section.title, block))),
  ];
  return rows.map((row) => `${row.map(field).join(",")}\r\n`).join("");
}

function blockRows(section: string, block: Block): string[][] {
  switch (block.kind) {
    case "paragraph":
      return [[section, "", "", block.text]];
    case "quote":
      return [[section, "", block.of, block.text]];
    case "list":
      return block.items.map((item, i) => [section, String(i + 1), "", item]);
    case "lines":
      return block.lines.map((line, i) => [section, String(i + 1), "line", line]);
    case "listing":
      return block.rows.map((row, i) => [section, `${block.place} ${i + 1}`, "", row]);
    case "table":
      return block.rows.flatMap((row, i) =>
        row.flatMap((cell, c) => (typeof cell === "string" ? [[section, String(i + 1), block.columns[c]?.title ?? "", cell]] : [])),
      );
    case "figure":
      return [];
  }
}

function field(text: string): string {
  const line = oneLine(text);
  const safe = /^[=+\-@]/.test(line) && !/^[+-]?[\d.]+$/.test(line) ? `'${line}` : line;
  return /[",]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
