import type { Problem } from "../base/outcome.ts";
import { Column } from "../formula/column.ts";
import type { Names } from "../formula/names.ts";
import type { CellLookup, CellValue } from "./cellValue.ts";
import { lineThrough } from "./lineThrough.ts";

/** What the names of formulas stand for, of what cells and columns hold. */
export function namesOf(lookup: CellLookup): Names {
  const heldBy = (name: string): CellValue | undefined => {
    const outcome = lookup.get(name);
    return outcome?.ok ? outcome.value : undefined;
  };
  const keys = () => lookup.keys() as MapIterator<string>;
  return {
    dimensions: {
      get: (name) => {
        const value = heldBy(name);
        return value?.kind === "column" ? new Column(value.dimension) : value?.dimension;
      },
      keys,
    },
    values: {
      get: (name) => {
        const value = heldBy(name);
        return value?.kind === "column" ? new Column(value.rows.flatMap((row) => (row?.ok ? [row.value] : []))) : value?.value;
      },
      keys,
      lineThrough: (places, values) => {
        const [across, along] = [heldBy(places), heldBy(values)];
        if (across?.kind !== "column") return { of: "places", what: `"${places}" is no column of a free table` };
        if (along?.kind !== "column") return { of: "values", what: `"${values}" is no column of a free table` };
        return lineThrough({ name: places, values: across }, { name: values, values: along });
      },
    },
    problemOf: (name) => {
      const outcome = lookup.get(name);
      if (outcome === undefined) return undefined;
      const problem = outcome.ok ? ofRows(outcome.value) : (outcome.problems[0] ?? nothingTyped);
      return problem && { what: `"${name}" has no value, so this has none`, remedy: `see there: ${problem.what}` };
    },
  };
}

const nothingTyped: Problem = { at: "", what: "nothing is typed" };

/** A column counts as a whole: one row that cannot be read, and a sum of it would be wrong. */
function ofRows(value: CellValue): Problem | undefined {
  if (value.kind !== "column") return undefined;
  for (const row of value.rows) if (row?.ok === false) return row.problems[0];
  return undefined;
}
