import { oneLine } from "../../base/oneLine.ts";
import { sheetWidth, textTable } from "../internals/textTable.ts";
import { bullet, wrapText } from "../internals/wrapText.ts";
import type { Block, Cell, Paper } from "./paper.ts";

/** A sheet as plain text, at most 100 columns wide where the words allow. */
export function paperText({ kind, title, facts, sections }: Paper): string {
  const lines = [
    ...wrapText(title === "" ? kind : `${kind}: ${title}`),
    ...facts.flatMap(({ name, value }) => wrapText(value === "" ? line : value, `  ${name}: `)),
    ...sections.flatMap((section) => [
      "",
      section.title,
      "-".repeat(Math.min(section.title.length, sheetWidth)),
      ...section.blocks.flatMap(blockLines),
    ]),
  ];
  return `${lines.join("\n")}\n`;
}

/** To write on. */
const line = "______________________________";
const box = "[          ]";

function blockLines(block: Block): string[] {
  switch (block.kind) {
    case "paragraph":
      return block.text.split(/\r?\n/).flatMap((text) => wrapText(text, "  "));
    case "quote":
      return [...wrapText(block.of, "  "), ...block.text.split(/\r?\n/).flatMap((text) => wrapText(text, "  | "))];
    case "list":
      return block.items.flatMap((item) => wrapText(item, bullet));
    case "table":
      return textTable(
        block.columns,
        block.rows.map((row) => row.map(cellText)),
      );
    case "lines":
      return block.lines.map((text) => `      ${oneLine(text)}`);
    case "listing":
      return [`  ${block.place}`, ...block.rows.flatMap(wrapListing)];
    case "figure":
      return [];
  }
}

function cellText(cell: Cell): string {
  return typeof cell === "string" ? cell : box;
}

const rowIndent = "    ";
const nextIndent = "      ";

/**
 * A row of a listing in lines: broken at blanks, and within a word that is longer than a line by a backslash at its end. Lines put together with a blank, or
 * without one after a backslash, are the row again.
 */
function wrapListing(row: string): string[] {
  const lines: string[] = [];
  let present = rowIndent;
  let isEmpty = true;
  for (const word of row.split(" ")) {
    let rest = Array.from(word);
    const room = () => sheetWidth - present.length - (isEmpty ? 0 : 1);
    if (!isEmpty && rest.length > room()) {
      lines.push(present);
      present = nextIndent;
      isEmpty = true;
    }
    while (rest.length > room()) {
      const taken = room() - 1;
      lines.push(`${present}${rest.slice(0, taken).join("")}\\`);
      rest = rest.slice(taken);
      present = nextIndent;
    }
    present += isEmpty ? rest.join("") : ` ${rest.join("")}`;
    isEmpty = false;
  }
  return [...lines, present];
}
