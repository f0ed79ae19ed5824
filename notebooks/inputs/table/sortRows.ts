import { compareRanks, type EntryRank, rankQuantity, rankWords } from "../../../lib/readings/entryOrder.ts";
import type { CellContext, Column } from "../column.ts";

export type Direction = "ascending" | "descending";

/** The rows in the order of one column; rows alike keep theirs. The very list where nothing moves. */
export function sortRows<Row extends object, Results>(
  rows: Row[],
  column: Column<Row, Results>,
  context: CellContext,
  results: Results | undefined,
  direction: Direction,
): Row[] {
  const ranked = rows.map((row) => ({ row, rank: rankOf(row, column, context, results) }));
  // Sorting is stable (ECMAScript 2019).
  const sorted = ranked.sort((a, b) => compareRanks(a.rank, b.rank, direction)).map(({ row }) => row);
  return sorted.every((row, index) => row === rows[index]) ? rows : sorted;
}

function rankOf<Row extends object, Results>(
  row: Row,
  column: Column<Row, Results>,
  { unit }: CellContext,
  results: Results | undefined,
): EntryRank {
  const value = column.rank?.(row);
  if (value !== undefined) return { group: "length", value, text: column.kind === "result" ? "" : column.read(row) };
  if (column.kind !== "result" && column.rank !== undefined) return rankWords(column.read(row));
  if (column.kind !== "result") return column.figures ? rankQuantity(column.read(row), unit) : rankWords(column.read(row));
  const text = (results === undefined ? undefined : column.show(row, results)?.text) ?? "";
  // All of a column are in one unit; what stands before the number (more than, less than) tells little of its order.
  return rankQuantity(text.replace(/^[<>≤≥≈\s]+/u, "").replace(/\s?%$/, ""), unit);
}
