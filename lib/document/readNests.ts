import { failure, type Outcome, type Problem, success } from "../base/outcome.ts";
import type { NestPlace } from "../equipment/nestPlace.ts";
import type { Nest } from "../offsets/nests.ts";
import { parseTable } from "../readings/parseTable.ts";
import { certain, type Uncertain } from "../uncertainty/uncertain.ts";
import { newReading, type Reading } from "./reading.ts";
import { RowReader, readRows } from "./rowReader.ts";
import type { SetupDocument } from "./setupDocument.ts";

/** Where parts lie beside the first: along each axis as drawn, and, where somebody looked, as found. */
export function readNestPlaces({ nests }: SetupDocument, reading: Reading, problems: Problem[]): NestPlace[] {
  return readRows(nests, "nests", reading, problems, (entry, row) => {
    const { id, foundX, foundY } = entry;
    const nominal = [meantAlong("x", entry.x, row), meantAlong("y", entry.y, row)] as const;
    const isFound = foundX.trim() !== "" || foundY.trim() !== "";
    const found = isFound ? ([foundAlong("foundX", foundX, id, row), foundAlong("foundY", foundY, id, row)] as const) : undefined;
    return { id, nominal, found };
  });
}

const columns = ["nest", "x", "y", "found x", "found y"] as const;
type Column = (typeof columns)[number];

/**
 * Nests from a pasted table under the names `nest`, `x`, `y`, `found x`, `found y`, in any order: where each is meant to be, and where it was found, with or
 * without a doubt (`114.281 ± 0.003 mm`). Refused whole where a cell cannot be read.
 *
 * @param unit of bare numbers
 */
export function readNests(text: string, unit: "mm" | "inch"): Outcome<Nest[]> {
  const table = parseTable(text, { maximumRows: 1000, maximumCharacters: 200_000 });
  if (!table.ok) return table;
  const { header = [], rows } = table.value;
  const places = new Map(header.map((name, place) => [name.trim().toLowerCase(), place]));
  const missing = columns.filter((name) => !places.has(name));
  if (missing.length > 0)
    return failure({
      at: "the row of names",
      what: `these columns are missing: ${missing.join(", ")}`,
      expected: columns.join(", "),
      got: header.join(", "),
    });
  const reading = newReading(unit);
  const problems: Problem[] = [];
  const names = new Set<string>();
  const nests = rows.map((cells, i): Nest => {
    const row = new RowReader(`row ${i + 2}`, reading);
    const cell = (name: Column) => cells[places.get(name) as number] ?? "";
    const id = cell("nest");
    if (id === "" || names.has(id)) row.refuse("nest", { what: "every nest needs a name of its own", expected: "a name", got: id });
    names.add(id);
    const meant = (name: "x" | "y") => meantAlong(name, cell(name), row);
    const found = (name: "found x" | "found y") => foundAlong(name, cell(name), id, row);
    const nest: Nest = { id, nominal: [meant("x"), meant("y")], found: [found("found x"), found("found y")] };
    problems.push(...row.problems);
    return nest;
  });
  return problems.length > 0 ? failure(...problems) : success(nests);
}

/** A drawing is exact: what is meant brings no doubt. */
function meantAlong(entry: string, text: string, row: RowReader): number {
  return row.required(entry, text, "where the nest is meant to be") ?? 0;
}

function foundAlong(entry: string, text: string, id: string, row: RowReader): Uncertain {
  const label = `${entry.replace(/(?<=found)(?=[XY])/u, " ").toLowerCase()} of nest ${id}`;
  const source = { id: label, label, family: "fixture", evidence: { kind: "stated" } } as const;
  const read = row.doubtfulLength(entry, text, source, { entry, text: "" });
  if (read === undefined && text.trim() === "")
    row.refuse(entry, { what: "where the nest was found is missing", expected: "a length, such as 114.281 ± 0.003 mm", got: "" });
  return read?.doubtful ?? certain(read?.value ?? 0);
}
