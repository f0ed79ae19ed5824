import { oneLine } from "../../base/oneLine.ts";

/** Width of a sheet in columns. */
export const sheetWidth = 100;

export interface TextColumn {
  readonly title: string;
  readonly align: "left" | "right";
}

/**
 * A table of plain text, indented by two. Where it would be wider than the sheet, the first cell of every row gets a line of
 * its own.
 */
export function textTable(columns: readonly TextColumn[], rows: readonly (readonly string[])[]): string[] {
  const cells = [columns.map(({ title }) => title), ...rows.map((row) => row.map(oneLine))];
  const widths = columns.map((_, i) => Math.max(...cells.map((row) => lengthOf(row[i] ?? ""))));
  const total = widths.reduce((sum, width) => sum + width + gap.length, indent.length - gap.length);
  const line = (row: readonly string[], from: number) =>
    `${indent}${columns
      .slice(from)
      .map(({ align }, i) => padded(row[from + i] ?? "", widths[from + i] as number, align))
      .join(gap)}`.trimEnd();
  if (total <= sheetWidth) return cells.map((row) => line(row, 0));
  return cells.flatMap((row) => [`${indent}${row[0] ?? ""}`.trimEnd(), `${indent}${line(row, 1)}`]);
}

const indent = "  ";
const gap = "  ";

function padded(text: string, width: number, align: "left" | "right"): string {
  const blanks = " ".repeat(Math.max(0, width - lengthOf(text)));
  return align === "left" ? text + blanks : blanks + text;
}

/** In characters, not in code units. */
function lengthOf(text: string): number {
  return Array.from(text).length;
}
