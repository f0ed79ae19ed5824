import { readRecordText } from "./readRecordText.ts";

/**
 * What another person makes of the text of a printed record, in the order in which the side has it: lines that belong to the foot of a side are put aside, a line
 * that only names a place begins it, a dash or the line after a place begins a row, and all else goes on with the row, as do lines within a quoted value.
 */
export function readRecordPdf(text: string): Record<string, unknown> {
  const lines = text
    .split(/[\n\f]/)
    .filter((line) => line.trim() !== "" && !/^(?:side \d+ of \d+|Setup record [0-9a-f]{4} [0-9a-f]{4})$/.test(line));
  const from = lines.indexOf("Entries, as typed");
  if (from < 0) throw new Error("the record lists no entries");
  const first = lines.indexOf("document", from);
  const end = lines.findIndex((line, i) => i > first && line.startsWith("Where a row leaves an entry out:"));
  const indented: string[] = [];
  let row = "";
  let isAfterPlace = false;
  for (const line of lines.slice(first, end < 0 ? lines.length : end)) {
    const isWithin = row.endsWith("\\") || isOpen(row);
    const isPlace = !isWithin && /^[a-z][a-zA-Z]*(?:\.[a-zA-Z]+)*$/.test(line);
    const isRow = !isWithin && (isAfterPlace || line.startsWith("- "));
    indented.push(`${isPlace ? "  " : isRow ? "    " : "      "}${line}`);
    row = isPlace ? "" : isRow ? line : row.endsWith("\\") ? `${row.slice(0, -1)}${line}` : `${row} ${line}`;
    isAfterPlace = isPlace;
  }
  return readRecordText(["Entries, as typed", "-----------------", ...indented].join("\n"));
}

/** Whether a quoted value of the row goes on in the next line. */
function isOpen(row: string): boolean {
  return (row.replace(/\\./g, "").match(/"/g)?.length ?? 0) % 2 === 1;
}
