import { failure, type Outcome, success } from "../base/outcome.ts";
import { type Mm, mm } from "../base/quantity.ts";
import { isFormula, namesOne, parseReadingFormula } from "./parseReadings.ts";
import { type ReadingOptions, type ScannedReading, scanReadings } from "./scanReadings.ts";

export interface ParsedPointReadings {
  /** In the order typed; at least one. */
  readonly points: readonly { readonly x: Mm; readonly y: Mm }[];
  /** Most decimals typed, in the unit typed; undefined for formulas. */
  readonly decimals: number | undefined;
  /** Smallest step that the decimals typed can tell; undefined for formulas. */
  readonly resolution: Mm | undefined;
  /** Each point as it was read. */
  readonly understoodAs: readonly string[];
  /** What looks odd but may be right. */
  readonly notes: readonly string[];
}

/**
 * Touches of a round wall at any angle: an X and a Y each, `X12.345 Y-3.210`.
 *
 * Points are parted by semicolons or new lines. With their letters, X and Y may
 * come in either order, and on one line a repeated letter starts the next point;
 * without letters each line or part holds two numbers, X before Y. Where a name
 * or an operator stands among them, each line or part is one point, `X` and a
 * formula, then `Y` and a formula.
 */
export function parsePointReadings(text: string, options: ReadingOptions): Outcome<ParsedPointReadings> {
  if (namesOne(text, options)) return parsePointFormulas(text, options);
  const scanned = scanReadings(text, options);
  if (!scanned.ok) return isFormula(text) ? parsePointFormulas(text, options) : scanned;
  if (scanned.value.length === 0)
    return failure({ at: "", what: "no point is typed", expected: "points such as X12.345 Y-3.210", got: text });
  const pairs = pairUp(scanned.value);
  if ("what" in pairs) return failure({ at: "", expected: "an X and a Y for each point", got: text, ...pairs });
  const quantities = scanned.value.map(({ quantity }) => quantity);
  const points = pairs.map(({ x, y }) => ({ x: x.quantity.value, y: y.quantity.value }));
  return success({
    points,
    decimals: Math.max(...quantities.map(({ decimals }) => decimals ?? 0)),
    resolution: mm(Math.min(...quantities.map(({ resolution }) => resolution ?? Number.POSITIVE_INFINITY))),
    understoodAs: pairs.map(({ x, y }) => `X ${x.quantity.understoodAs}, Y ${y.quantity.understoodAs}`),
    notes: noteRepeated(points),
  });
}

/** `X` and a formula, then `Y` and a formula; either may come first. A letter that a name begins with is none of them. */
const pointFormula = /^([XY])(?![\p{L}\p{M}_])\s*=?\s*(.*?)[\s,]+([XY])(?![\p{L}\p{M}_])\s*=?\s*(.*)$/su;

function parsePointFormulas(text: string, options: ReadingOptions): Outcome<ParsedPointReadings> {
  const parts = text
    .split(/[;\n]/u)
    .map((part) => part.trim())
    .filter((part) => part !== "");
  const points: { x: Mm; y: Mm }[] = [];
  const understoodAs: string[] = [];
  for (const [index, part] of parts.entries()) {
    const [, letter, one = "", other, two = ""] = pointFormula.exec(part) ?? [];
    if (letter === undefined || letter === other)
      return failure({
        at: "",
        what: `point ${index + 1} is no X and Y of formulas`,
        expected: "points such as X bore_x + 3 Y bore_y",
        got: text,
        remedy: "write X and Y before the formulas, and part points by a semicolon or a new line",
      });
    const [first, second] = [parseReadingFormula(one, options), parseReadingFormula(two, options)];
    if (!first.ok) return first;
    if (!second.ok) return second;
    const [x, y] = letter === "X" ? [first.value, second.value] : [second.value, first.value];
    points.push({ x: x.value, y: y.value });
    understoodAs.push(`X ${x.understoodAs}, Y ${y.understoodAs}`);
  }
  return success({ points, decimals: undefined, resolution: undefined, understoodAs, notes: noteRepeated(points) });
}

interface Pair {
  readonly x: ScannedReading;
  readonly y: ScannedReading;
}

interface Complaint {
  readonly what: string;
  readonly remedy?: string;
  readonly character: number;
}

function pairUp(readings: readonly ScannedReading[]): readonly Pair[] | Complaint {
  const pairs: Pair[] = [];
  for (let index = 0; index < readings.length; index += 2) {
    const [first, second] = [readings[index], readings[index + 1]];
    if (!first) break;
    const number = pairs.length + 1;
    if (!second || second.group !== first.group) return { what: `point ${number} has one coordinate`, character: first.character };
    const pair = order(first, second);
    if (!pair) {
      const letters = [first.axis ?? "none", second.axis ?? "none"].join(" and ");
      return {
        what: `the letters of point ${number} are ${letters}`,
        remedy: "write X and Y before the numbers, or neither",
        character: first.character,
      };
    }
    const third = readings[index + 2];
    if (first.axis === undefined && third?.group === first.group) {
      const what = "more than two numbers without letters stand together";
      return { what, remedy: "part points by a semicolon or a new line", character: third.character };
    }
    pairs.push(pair);
  }
  return pairs;
}

function order(first: ScannedReading, second: ScannedReading): Pair | undefined {
  if (first.axis === second.axis && first.axis === undefined) return { x: first, y: second };
  if (first.axis === "X" && second.axis === "Y") return { x: first, y: second };
  return first.axis === "Y" && second.axis === "X" ? { x: second, y: first } : undefined;
}

/** A point noted twice counts twice in a fit, and mostly is a slip of copying. */
function noteRepeated(points: readonly { readonly x: Mm; readonly y: Mm }[]): readonly string[] {
  const seen = new Map<string, number>();
  const notes: string[] = [];
  for (const [index, { x, y }] of points.entries()) {
    const key = `${x} ${y}`;
    const before = seen.get(key);
    if (before !== undefined) notes.push(`points ${before + 1} and ${index + 1} are the same to the last digit`);
    else seen.set(key, index);
  }
  return notes;
}
