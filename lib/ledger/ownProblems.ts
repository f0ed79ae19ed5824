import type { Outcome, Problem } from "../base/outcome.ts";
import type { CellValue } from "./cellValue.ts";

/** What is wrong with cells of a person's own, each said where it is. */
export function ownProblems(own: ReadonlyMap<string, Outcome<CellValue>>): Problem[] {
  return [...own.values()].flatMap((outcome) => {
    if (!outcome.ok) return [...outcome.problems];
    if (outcome.value.kind !== "column") return [];
    return outcome.value.rows.flatMap((row) => (row?.ok === false ? [...row.problems] : []));
  });
}
