import { oneLine } from "../../base/oneLine.ts";
import { sheetWidth } from "./textTable.ts";

/** Before each sentence of a list. */
export const bullet = "  - ";

/** The text in lines no wider than the sheet, the first after `first`, the others after as many blanks; a longer word stays whole. */
export function wrapText(text: string, first = ""): string[] {
  const rest = " ".repeat(first.length);
  const lines: string[] = [];
  let line = first;
  let empty = true;
  for (const word of oneLine(text)
    .split(" ")
    .filter((each) => each !== "")) {
    if (!empty && line.length + 1 + word.length > sheetWidth) {
      lines.push(line);
      line = rest;
      empty = true;
    }
    line += empty ? word : ` ${word}`;
    empty = false;
  }
  return [...lines, line];
}
