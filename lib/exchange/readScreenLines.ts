import { type Outcome, success } from "../base/outcome.ts";
import { type Axis, axes } from "../base/vector.ts";
import { parseNumber } from "../formula/parseNumber.ts";
import { type LengthUnit, type TypedLength, unitText } from "./lengthText.ts";
import type { LeftOut } from "./proposal.ts";
import { atMost, usableText } from "./sizeLimits.ts";

/** Where a display has shown the tool. */
export interface ReadPosition {
  /** Where in the text: `line 3`. */
  readonly at: string;
  /** What stood before the axes; empty for nothing. */
  readonly label: string;
  readonly values: ReadonlyMap<Axis, TypedLength>;
  /** What a person has to see before it is taken; undefined for nothing. */
  readonly doubt?: string;
}

export interface ReadPositions {
  readonly positions: readonly ReadPosition[];
  readonly leftOut: readonly LeftOut[];
}

const mostLines = 1000;
const longestLine = 500;

const ofAxis =
  /(?<![\p{L}\d_])([XYZ])\s*[=:]?\s*([+\-−–]?\s?[\d.,]*\d\.?(?:e[+-]?\d+)?(?:-(?=[\s,;|]|$))?)\s*(mm|inches|inch|in|")?(?![\p{L}\d])/giu;
/** Turning axes, feed and the like: words that are known not to be coordinates of a setup. */
const ofOther = /(?<![\p{L}\d_])[ABCUVWFST]\s*[=:]?\s*[+\-−–]?\s?[\d.,]*\d\.?(?![\p{L}\d])/giu;

/**
 * Lines as a display shows them, a position in each: `X -123.456 Y 12.3 Z -4`, in any order, `=` or `:` behind a letter or not, what stands before the first
 * letter taken for the name of a touch. A unit stands behind each number, or behind the last alone and goes for all of the line, as in the entry of a touch; lines
 * without one ask where others state another than the setup's. Numbers are read as everywhere (`parseNumber`): what can mean two things is not taken.
 *
 * A line is taken as a whole or not at all, and what is left out says why; other axes and words of a machine are told and left out by themselves.
 *
 * @param unit of numbers that state none
 */
export function readScreenLines(text: string, unit: LengthUnit): Outcome<ReadPositions> {
  const usable = usableText(text, "lines such as X -123.456 Y 12.3");
  if (!usable.ok) return usable;
  const lines = usable.value.split(/\r\n|\r|\n/);
  const few = atMost(mostLines, lines.length, "the text has", "lines");
  if (!few.ok) return few;
  const positions: LinePosition[] = [];
  const leftOut: LeftOut[] = [];
  lines.forEach((line, i) => {
    const at = `line ${i + 1}`;
    if (line.trim() === "") return;
    const read = readLine(line, at, unit);
    if (typeof read === "string") leftOut.push({ at, what: read });
    else {
      positions.push(read.position);
      leftOut.push(...read.others.map((what) => ({ at, what: `"${what}": no coordinate of a setup` })));
    }
  });
  return success({ positions: asking(positions, unit), leftOut });
}

/** Whether the line says a unit itself. */
interface LinePosition extends ReadPosition {
  readonly statesUnit: boolean;
}

function asking(positions: readonly LinePosition[], unit: LengthUnit): ReadPosition[] {
  const other = positions.find(({ values }) => [...values.values()].some((value) => value.unit !== unit));
  return positions.map(({ statesUnit, ...position }) =>
    statesUnit || other === undefined
      ? position
      : {
          ...position,
          doubt: `it states no unit, where ${other.at} is in ${unit === "mm" ? "inches" : "millimetres"}, and ${unit === "mm" ? "millimetres" : "inches"} are only assumed`,
        },
  );
}

/** The position, or why there is none. */
function readLine(line: string, at: string, unit: LengthUnit): string | { position: LinePosition; others: string[] } {
  if (line.length > longestLine) return `a line of ${line.length} characters is no position`;
  const found = [...line.matchAll(ofAxis)];
  const [first] = found;
  if (first === undefined) return `"${shown(line)}": no axis letter with a number, such as X -123.456`;
  const stated = found.map(
    ([, , , typed = ""]) => (typed === "" ? undefined : typed.toLowerCase() === "mm" ? "mm" : "inch") satisfies LengthUnit | undefined,
  );
  const units = unitsOf(stated, unit);
  if (units === undefined)
    return `"${shown(line)}": some numbers have a unit and some have none: write it behind each, or behind the last alone`;
  const values = new Map<Axis, TypedLength>();
  for (const [i, [whole, letter = "", number = ""]] of found.entries()) {
    const axis = letter.toUpperCase() as Axis;
    const parsed = parseNumber(number);
    if (!parsed.ok) return `"${whole.trim()}": ${parsed.problems[0]?.what ?? "it is not a number"}`;
    if (values.has(axis)) return `"${shown(line)}": ${axis} is there twice`;
    values.set(axis, { digits: parsed.value.understoodAs, unit: units[i] ?? unit });
  }
  const others: string[] = [];
  const behind = line
    .slice(first.index)
    .replace(ofAxis, " ")
    .replace(ofOther, (word) => {
      others.push(word.trim());
      return " ";
    })
    .replace(/[\s,;|]+/g, " ")
    .trim();
  if (behind !== "") return `"${shown(line)}": "${shown(behind)}" is not understood`;
  return {
    position: {
      at,
      label: line
        .slice(0, first.index)
        .replace(/[\s:;,=|]+$/, "")
        .trim(),
      values,
      statesUnit: stated.some((each) => each !== undefined),
    },
    others,
  };
}

/** The unit of each number of a line; undefined where some state one, and the others could be in that or in the setup's. */
function unitsOf(stated: readonly (LengthUnit | undefined)[], unit: LengthUnit): readonly LengthUnit[] | undefined {
  const last = stated.at(-1);
  if (last !== undefined && stated.slice(0, -1).every((each) => each === undefined)) return stated.map(() => last);
  const isSure = stated.every((each) => each !== undefined) || stated.every((each) => each === undefined || each === unit);
  return isSure ? stated.map((each) => each ?? unit) : undefined;
}

function shown(text: string): string {
  const trimmed = text.trim();
  return trimmed.length > 60 ? `${trimmed.slice(0, 60)}…` : trimmed;
}

/** A position in words: `X -123.456 mm, Y 12.3 mm`. */
export function positionWords({ values }: ReadPosition): string {
  return axes
    .flatMap((axis) => {
      const value = values.get(axis);
      return value === undefined ? [] : [`${axis} ${value.digits} ${unitText(value.unit)}`];
    })
    .join(", ");
}
