import { failure, type Outcome, type Problem, success } from "../base/outcome.ts";
import { parseNumber } from "../formula/parseNumber.ts";
import { parseLength } from "../formula/parseQuantity.ts";
import { blankEntries } from "./blankEntries.ts";
import type { NestEntry } from "./setupDocument.ts";

/** As typed. */
export interface GridEntries {
  readonly columns: string;
  readonly rows: string;
  readonly pitchX: string;
  readonly pitchY: string;
}

const mostNests = 60;

/**
 * Rows for nests at equal distances, column by column in each row. Each place is written as a formula of the pitch, so that a person sees where it comes from
 * and a pitch that is a cell's name is followed. Along a single column or row no pitch is needed.
 *
 * @param named whether a name is taken
 * @param unit of bare numbers
 */
export function gridOfNests(grid: GridEntries, named: (id: string) => boolean, unit: "mm" | "inch"): Outcome<NestEntry[]> {
  const problems: Problem[] = [];
  const count = (at: "columns" | "rows"): number => {
    const parsed = parseNumber(grid[at].trim());
    const value = parsed.ok ? parsed.value.value : Number.NaN;
    if (Number.isInteger(value) && value >= 1 && value <= mostNests) return value;
    problems.push({ at, what: `the number of ${at} is not known`, expected: `a whole number from 1 to ${mostNests}`, got: grid[at] });
    return 1;
  };
  const [columns, rows] = [count("columns"), count("rows")];
  const pitch = (at: "pitchX" | "pitchY", pitches: number): string => {
    const text = grid[at].trim();
    if (pitches === 0) return "0";
    const parsed = parseLength(text, { unit });
    // A name is known only where the whole document is read; what else is wrong with it is told there too.
    if (text === "" || (!parsed.ok && !/[\p{L}_]/u.test(text)))
      problems.push({
        at,
        what: `the distance from one nest to the next along ${at.at(-1)} is missing`,
        expected: "a length, such as 120 mm",
        got: text,
      });
    return text;
  };
  const [alongX, alongY] = [pitch("pitchX", columns - 1), pitch("pitchY", rows - 1)];
  if (columns * rows > mostNests)
    problems.push({
      at: "columns",
      what: "these are more nests than a fixture has",
      expected: `up to ${mostNests} in all`,
      got: String(columns * rows),
    });
  if (problems.length > 0) return failure(...problems);
  const times = (pitches: number, text: string) => (pitches === 0 ? "0" : pitches === 1 ? text : `${pitches} * (${text})`);
  const nests = Array.from({ length: columns * rows }, (_, i): NestEntry => {
    const [column, row] = [i % columns, Math.floor(i / columns)];
    const id = rows === 1 || columns === 1 ? `nest ${i + 1}` : `nest ${row + 1}.${column + 1}`;
    return { ...blankEntries.nest(id), x: times(column, alongX), y: times(row, alongY) };
  });
  const taken = nests.filter(({ id }) => named(id));
  return taken.length === 0
    ? success(nests)
    : failure({
        at: "nests",
        what: "names of this grid are taken already",
        got: taken.map(({ id }) => id).join(", "),
        remedy: "rename or remove those rows",
      });
}
