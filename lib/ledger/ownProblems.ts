import type { Outcome, Problem } from "../base/outcome.ts";
import type { CellValue, ColumnValues } from "./cellValue.ts";

/** What is wrong with cells of a person's own, each said where it is. */
export function ownProblems(own: ReadonlyMap<string, Outcome<CellValue>>): Problem[] {
  return [...own.values()].flatMap((outcome) => {
    if (!outcome.ok) return outcome.problems;
    return outcome.value.kind === "column" ? problemsOfRows(outcome.value) : [];
  });
}

/** What is wrong in the rows of a column, which never changes: there may be thousands of them. */
const problemsKnown = new WeakMap<ColumnValues, readonly Problem[]>();

function problemsOfRows(column: ColumnValues): readonly Problem[] {
  const known = problemsKnown.get(column);
  if (known !== undefined) return known;
  const problems: Problem[] = [];
  for (const row of column.rows) if (row?.ok === false) problems.push(...row.problems);
  problemsKnown.set(column, problems);
  return problems;
}
