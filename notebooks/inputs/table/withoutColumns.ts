import { parseTable } from "../../../lib/readings/parseTable.ts";
import { asTabbedText } from "./cellsAsText.ts";

/** A block that was copied from a table of this page without its columns of results: they are worked out where it goes. */
export function withoutColumns(text: string, places: readonly number[]): string {
  const parsed = parseTable(text, { separator: "\t" });
  if (!parsed.ok) return text;
  const { header, rows } = parsed.value;
  const all = header === undefined ? rows : [header, ...rows];
  return asTabbedText(all.map((row) => row.filter((_, i) => !places.includes(i))));
}
