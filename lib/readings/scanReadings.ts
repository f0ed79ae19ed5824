import { failure, type Outcome, type Problem, success } from "../base/outcome.ts";
import type { Mm } from "../base/quantity.ts";
import { type ParsedQuantity, parseLength, type QuantityOptions } from "../formula/parseQuantity.ts";
import { findUnit } from "../formula/units.ts";
import { type Piece, type PieceProblem, splitPieces } from "./internals/splitPieces.ts";

export type AxisLetter = "X" | "Y" | "Z";

export interface ReadingOptions extends QuantityOptions {
  /** What a bare number takes. */
  readonly unit: "mm" | "inch";
}

/** One number of a cell of readings. */
export interface ScannedReading {
  readonly quantity: ParsedQuantity<Mm>;
  /** The letter before it, as screens show it. */
  readonly axis: AxisLetter | undefined;
  /** Counts the lines and semicolons before it: readings with the same number stand together. */
  readonly group: number;
  /** Index of its first character in the cell. */
  readonly character: number;
}

/**
 * The numbers of a cell, as far as readings of one axis and of several go the
 * same way. Parted by blanks, tabs, new lines and semicolons; by a comma only
 * where it can be neither a decimal nor a thousands mark. Each number may have a
 * sign before it, a minus behind it, an axis letter before it (`X-412.607`,
 * `X = 12`) and a unit behind it; a unit behind the last number alone goes for
 * all. Problems name the number, its place in the order and its character.
 */
export function scanReadings(text: string, options: ReadingOptions): Outcome<readonly ScannedReading[]> {
  if (text.length > longestCell)
    return failure({ at: "", what: `a cell of ${text.length} characters`, expected: `at most ${longestCell}` });
  const pieces = splitPieces(text, options);
  if ("what" in pieces) return failure(tell(pieces, text));
  if (pieces.length > mostReadings) {
    return failure({ at: "", what: `${pieces.length} readings in one cell`, expected: `at most ${mostReadings}` });
  }
  const unit = unitForAll(pieces);
  if (unit && "what" in unit) return failure(tell(unit, text));
  return parsePieces(unit ? pieces.map((piece) => ({ ...piece, unit: unit.unit })) : pieces, text, options);
}

const longestCell = 20_000;
const mostReadings = 1000;
const longestShown = 40;

/** The unit that goes for all, if only the last number has one; a complaint if some have one and some not. */
function unitForAll(pieces: readonly Piece[]): { readonly unit: string } | PieceProblem | undefined {
  const bare = pieces.filter((piece) => piece.unit === "");
  const last = pieces.at(-1);
  if (last === undefined || bare.length === 0 || bare.length === pieces.length) return undefined;
  // What is no unit of length is left where it stands, to be complained about there.
  if (bare.length === pieces.length - 1 && last.unit !== "")
    return findUnit(last.unit)?.dimension.length === 1 ? { unit: last.unit } : undefined;
  const [piece = last] = bare;
  return { what: "some readings have a unit and some have none", remedy: "write the unit behind each, or behind the last alone", piece };
}

function parsePieces(pieces: readonly Piece[], text: string, options: ReadingOptions): Outcome<readonly ScannedReading[]> {
  const readings: ScannedReading[] = [];
  for (const piece of pieces) {
    const reading = parsePiece(piece, options);
    if ("what" in reading) return failure(tell(reading, text));
    readings.push(reading);
  }
  return success(readings);
}

function parsePiece(piece: Piece, options: ReadingOptions): ScannedReading | PieceProblem {
  if (!/\p{Nd}/u.test(piece.number)) return { what: "it is not a number", expected: "a number", character: 0, piece };
  const quantity = parseLength(piece.number + (piece.unit && ` ${piece.unit}`), options);
  if (!quantity.ok) return { what: "it is not a number", ...quantity.problems[0], piece };
  if (quantity.value.decimals === undefined) return { what: "it is not a plain number", expected: "one number", piece };
  const axis = piece.axis.toUpperCase();
  if (axis !== "" && !isAxisLetter(axis)) {
    return { what: `"${piece.axis}" is not the letter of an axis`, expected: "X, Y or Z", character: -piece.axis.length, piece };
  }
  return { quantity: quantity.value, axis: isAxisLetter(axis) ? axis : undefined, group: piece.group, character: piece.character };
}

function isAxisLetter(letter: string): letter is AxisLetter {
  return letter === "X" || letter === "Y" || letter === "Z";
}

/** A problem of one number, told about the cell: which number, and where in the cell. */
function tell({ piece, ...problem }: PieceProblem, text: string): Problem {
  const typed = `${piece.axis}${piece.number}${piece.unit}`;
  const shown = typed.length > longestShown ? `${typed.slice(0, longestShown)}…` : typed;
  const character = Math.min(piece.character + piece.axis.length + (problem.character ?? 0), text.length);
  return { ...problem, at: "", what: `reading ${piece.index + 1}, "${shown}": ${problem.what}`, got: text, character };
}
