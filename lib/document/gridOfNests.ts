import { failure, type Outcome, type Problem, success } from "../base/outcome.ts";
import { checkStatement } from "../formula/checkStatement.ts";
import { parseNumber } from "../formula/parseNumber.ts";
import { parseAngle, parseLength } from "../formula/parseQuantity.ts";
import { parseStatement } from "../formula/parseStatement.ts";
import { namesOfStatement } from "../formula/statement.ts";
import { blankEntries } from "./blankEntries.ts";
import type { LedgerBlock } from "./ledgerBlocks.ts";
import type { NestEntry } from "./setupDocument.ts";

/** As typed. */
export interface GridEntries {
  readonly columns: string;
  readonly rows: string;
  /** Lengths, as drawn, or measured with their doubt: `120 mm ± 0.003 mm`. */
  readonly pitchX: string;
  readonly pitchY: string;
  /** Of the grid against the machine about Z, with or without a doubt; empty where nobody looked. A bare number is degrees. */
  readonly turn: string;
}

/** What the document has already. */
export interface GridSurroundings {
  /** Of bare numbers. */
  readonly unit: "mm" | "inch";
  /** Whether a nest, and whether a cell, is called so already. */
  readonly isNest: (id: string) => boolean;
  readonly isCell: (name: string) => boolean;
  /** Whether what a name stands for is in doubt. */
  readonly isInDoubt: (name: string) => boolean;
}

/** Rows for the nests, and the cells that hold what they share: pitch and turn are one doubt for all of them. */
export interface GridRows {
  readonly nests: readonly NestEntry[];
  readonly cells: readonly LedgerBlock[];
}

const mostNests = 60;

/**
 * Rows for nests at equal distances, column by column in each row. Each place is written as a formula of the pitch, so that a person sees where it comes from
 * and a pitch that is a cell's name is followed. A pitch that brings its doubt, and a turn of the grid, say where the nests were found, and not where they
 * are drawn: both become cells that all places name (`nestGrid` has the geometry). Along a single column or row no pitch is needed.
 */
export function gridOfNests(grid: GridEntries, { unit, isNest, isCell, isInDoubt }: GridSurroundings): Outcome<GridRows> {
  const problems: Problem[] = [];
  const cells: LedgerBlock[] = [];
  const count = (at: "columns" | "rows"): number => {
    const parsed = parseNumber(grid[at].trim());
    const value = parsed.ok ? parsed.value.value : Number.NaN;
    if (Number.isInteger(value) && value >= 1 && value <= mostNests) return value;
    problems.push({ at, what: `the number of ${at} is not known`, expected: `a whole number from 1 to ${mostNests}`, got: grid[at] });
    return 1;
  };
  const [columns, rows] = [count("columns"), count("rows")];
  /** A cell that holds a text; what it is refused for is told at the entry. */
  const cell = (name: string, entry: string): string => {
    const id = freeCell(name, isCell);
    cells.push({ ...(blankEntries.block("cell", id) as LedgerBlock & { kind: "cell" }), entry, family: "fixture" });
    return id;
  };
  const pitch = (at: "pitchX" | "pitchY", pitches: number): Step => {
    const text = grid[at].trim();
    if (pitches === 0) return { drawn: "0", found: "0", ofOne: "0", isFound: false };
    const statement = parseStatement(text);
    if (statement.ok && statement.value.doubt !== undefined) {
      const checked = checkStatement(statement.value, new Map());
      if (checked.ok && checked.value.isBare && checked.value.dimension.length === 0)
        problems.push({ at, what: "a pitch with its doubt needs its unit", expected: "such as 120 mm ± 0.003 mm", got: text });
      const name = cell(`nest_pitch_${at.at(-1)}`, text);
      return { drawn: `estimate(${name})`, found: name, ofOne: `estimate(${name})`, isFound: true };
    }
    const parsed = parseLength(text, { unit });
    // A name is known only where the whole document is read; what else is wrong with it is told there too.
    if (text === "" || (!parsed.ok && !/[\p{L}_]/u.test(text)))
      problems.push({
        at,
        what: `the distance from one nest to the next along ${at.at(-1)} is missing`,
        expected: "a length, such as 120 mm",
        got: text,
      });
    const names = statement.ok ? namesOfStatement(statement.value) : [];
    return names.some(isInDoubt)
      ? { drawn: `estimate(${text})`, found: `(${text})`, ofOne: `estimate(${text})`, isFound: true }
      : { drawn: `(${text})`, found: inUnit(text, parsed, unit), ofOne: text, isFound: false };
  };
  const [alongX, alongY] = [pitch("pitchX", columns - 1), pitch("pitchY", rows - 1)];
  const turn = turnOf(grid.turn, problems, cell);
  if (columns * rows > mostNests)
    problems.push({
      at: "columns",
      what: "these are more nests than a fixture has",
      expected: `up to ${mostNests} in all`,
      got: String(columns * rows),
    });
  if (problems.length > 0) return failure(...problems);
  const isFound = alongX.isFound || alongY.isFound || turn !== undefined;
  const nests = Array.from({ length: columns * rows }, (_, i): NestEntry => {
    const [column, row] = [i % columns, Math.floor(i / columns)];
    const id = rows === 1 || columns === 1 ? `nest ${i + 1}` : `nest ${row + 1}.${column + 1}`;
    const drawn = { x: column === 1 ? alongX.ofOne : times(column, alongX.drawn), y: row === 1 ? alongY.ofOne : times(row, alongY.drawn) };
    const [x, y] = [times(column, alongX.found), times(row, alongY.found)];
    const found = !isFound ? {} : turn === undefined ? { foundX: x, foundY: y } : turned(x, y, turn);
    return { ...blankEntries.nest(id), ...drawn, ...found };
  });
  const taken = nests.filter(({ id }) => isNest(id));
  return taken.length === 0
    ? success({ nests, cells })
    : failure({
        at: "nests",
        what: "names of this grid are taken already",
        got: taken.map(({ id }) => id).join(", "),
        remedy: "rename or remove those rows",
      });
}

/** From one nest to the next along an axis, as texts that can be multiplied. */
interface Step {
  readonly drawn: string;
  readonly found: string;
  /** As drawn, where it stands alone. */
  readonly ofOne: string;
  /** Whether it says more than the drawing. */
  readonly isFound: boolean;
}

/** Beside others in a sum a bare number must say what it is in. */
function inUnit(text: string, parsed: ReturnType<typeof parseLength>, unit: "mm" | "inch"): string {
  const isBare = parsed.ok && parsed.value.typedUnit === undefined && parsed.value.uses.length === 0;
  return isBare ? `(${text}) * 1 ${unit === "inch" ? "in" : "mm"}` : `(${text})`;
}

function turnOf(typed: string, problems: Problem[], cell: (name: string, entry: string) => string): string | undefined {
  const text = typed.trim();
  if (text === "") return undefined;
  const statement = parseStatement(text);
  const checked = statement.ok ? checkStatement(statement.value, new Map()) : statement;
  const isBare = checked.ok && checked.value.isBare && checked.value.dimension.angle === 0;
  if (isBare && statement.ok && statement.value.doubt !== undefined)
    problems.push({ at: "turn", what: "a turn with its doubt needs its unit", expected: "such as 0.02 deg ± 0.005 deg", got: text });
  else if (!isBare && checked.ok && (checked.value.dimension.angle !== 1 || checked.value.dimension.length !== 0))
    problems.push({ at: "turn", what: "this is no angle", expected: "the turn of the grid, such as 0.02 deg", got: text });
  else if (!statement.ok)
    problems.push({ at: "turn", what: "the turn of the grid cannot be read", expected: "an angle, such as 0.02 deg", got: text });
  return cell("nest_turn", isBare && parseAngle(text, { unit: "deg" }).ok ? `${text} deg` : text);
}

/** x cos θ - y sin θ and x sin θ + y cos θ, as `nestGrid` has it; what is 0 is left out. */
function turned(x: string, y: string, turn: string): Pick<NestEntry, "foundX" | "foundY"> {
  const term = (text: string, of: "cos" | "sin") => (text === "0" ? "" : `${text} * ${of}(${turn})`);
  const sum = (one: string, sign: "+" | "-", other: string) => {
    const rest = other === "" ? "" : one === "" ? `${sign === "-" ? "-" : ""}${other}` : ` ${sign} ${other}`;
    return `${one}${rest}` || "0";
  };
  return { foundX: sum(term(x, "cos"), "-", term(y, "sin")), foundY: sum(term(x, "sin"), "+", term(y, "cos")) };
}

function times(pitches: number, text: string): string {
  if (pitches === 0 || text === "0") return "0";
  return pitches === 1 ? text : `${pitches} * ${text}`;
}

function freeCell(name: string, isTaken: (name: string) => boolean): string {
  for (let i = 2, free = name; ; i++) {
    if (!isTaken(free)) return free;
    free = `${name}_${i}`;
  }
}
