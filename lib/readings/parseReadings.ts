import { failure, type Outcome, success } from "../base/outcome.ts";
import { type Mm, mm } from "../base/quantity.ts";
import { type ParsedQuantity, parseLength } from "../formula/parseQuantity.ts";
import { type AxisLetter, type ReadingOptions, scanReadings } from "./scanReadings.ts";

export interface ParsedReadings {
  /** In the order typed; at least one. */
  readonly values: readonly Mm[];
  /** Most decimals typed, in the unit typed; undefined for a formula. */
  readonly decimals: number | undefined;
  /** Smallest step that the decimals typed can tell; undefined for a formula. */
  readonly resolution: Mm | undefined;
  /** Each reading as it was read. */
  readonly understoodAs: readonly string[];
  /** What looks odd but may be right. */
  readonly notes: readonly string[];
  /** The names in a formula. */
  readonly uses: readonly string[];
}

/**
 * Repeats of one touch along one axis, typed into one cell.
 *
 * The numbers are parted and read as `scanReadings` says. An axis letter must be
 * that of the cell. A number is never completed from the one before it: `.441`
 * behind `-412.444` is 0.441, and readings more than 1 mm apart get a note. A
 * cell that is one formula (`-412.607 + 0.2 mm`, signs with blanks on both
 * sides) is one reading.
 */
export function parseReadings(text: string, { axis, ...options }: ReadingOptions & { readonly axis: AxisLetter }): Outcome<ParsedReadings> {
  if (text.trim() === "") return failure({ at: "", what: "no reading is typed", expected: `readings such as ${axis}-412.607`, got: text });
  if (isFormula(text) || namesOne(text, options)) return parseOneFormula(text, options);
  const scanned = scanReadings(text, options);
  if (!scanned.ok) return scanned;
  if (scanned.value.length === 0) return failure({ at: "", what: "no reading is typed", expected: "at least one number", got: text });
  const stranger = scanned.value.findIndex((reading) => reading.axis !== undefined && reading.axis !== axis);
  const strange = scanned.value[stranger];
  if (strange) {
    const what = `reading ${stranger + 1} is of axis ${strange.axis}, in a cell for ${axis}`;
    return failure({
      at: "",
      what,
      expected: `readings of ${axis}`,
      got: text,
      remedy: "enter it in the cell of its own axis",
      character: strange.character,
    });
  }
  const quantities = scanned.value.map(({ quantity }) => quantity);
  const values = quantities.map(({ value }) => value);
  return success({
    values,
    decimals: Math.max(...quantities.map(({ decimals }) => decimals ?? 0)),
    resolution: mm(Math.min(...quantities.map(({ resolution }) => resolution ?? Number.POSITIVE_INFINITY))),
    understoodAs: quantities.map(({ understoodAs }) => understoodAs),
    notes: noteSpread(values),
    uses: [],
  });
}

/**
 * Repeats of one touch that lie further apart than this get a note, mm. Our own
 * choice: a hundred times the scatter of the coarsest method in use, and less
 * than a lost integer part makes.
 */
const suspiciousSpread = 1;

/** Whether a cell is one formula and no list of readings: it has operators that no list holds, or a sign between two values with a blank on both sides. */
export function isFormula(text: string): boolean {
  const oneBlank = text.replace(/[ \t]+/g, " ");
  return /[*/^()×÷∕]/.test(text) || /[\d.,] ?[A-Za-zµμ°]* [+\-−–] [\d.,]/.test(oneBlank);
}

/** A name by itself, or behind a number that it is added to and the like. */
export function namesOne(text: string, { names }: ReadingOptions): boolean {
  return names !== undefined && (text.match(/[\p{L}_][\p{L}\p{M}\d_]*/gu) ?? []).some((word) => names.dimensions.get(word) !== undefined);
}

function parseOneFormula(text: string, options: ReadingOptions): Outcome<ParsedReadings> {
  const parsed = parseReadingFormula(text, options);
  if (!parsed.ok) return parsed;
  const { value, decimals, resolution, understoodAs, uses } = parsed.value;
  return success({ values: [value], decimals, resolution, understoodAs: [understoodAs], notes: [], uses });
}

/** One reading as a formula, which may name what is sure. */
export function parseReadingFormula(text: string, options: ReadingOptions): Outcome<ParsedQuantity<Mm>> {
  const parsed = parseLength(text, options);
  if (!parsed.ok || parsed.value.doubtful === undefined) return parsed;
  return failure({
    at: "",
    what: "what is named here is in doubt, and a reading is a sure number",
    expected: "what the display has shown",
    got: text,
    remedy: "put the doubt aside with estimate( ), if that is meant",
  });
}

function noteSpread(values: readonly Mm[]): readonly string[] {
  const largest = values.reduce((at, value, index) => (value > (values[at] ?? value) ? index : at), 0);
  const smallest = values.reduce((at, value, index) => (value < (values[at] ?? value) ? index : at), 0);
  const spread = (values[largest] ?? 0) - (values[smallest] ?? 0);
  if (!(spread > suspiciousSpread)) return [];
  const [first, second] = [smallest, largest].sort((a, b) => a - b).map((index) => index + 1);
  const apart = `readings ${first} and ${second} are ${Number(spread.toPrecision(6))} mm apart, too far for repeats of one touch`;
  return [`${apart}; each number is taken as typed and not completed from the one before`];
}
