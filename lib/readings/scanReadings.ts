import { failure, type Outcome, type Problem, success } from "../base/outcome.ts";
import type { Mm } from "../base/quantity.ts";
import { type NumberOptions, parseNumber } from "../formula/parseNumber.ts";
import { type ParsedQuantity, parseLength } from "../formula/parseQuantity.ts";
import { findUnit } from "../formula/units.ts";

export type AxisLetter = "X" | "Y" | "Z";

export interface ReadingOptions extends NumberOptions {
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
  const pieces = joinPieces(splitAtBlanks(text));
  const split: Piece[] = [];
  for (const piece of pieces) {
    const parts = splitAtCommas(piece, options);
    if (!Array.isArray(parts)) return failure(tell(parts, piece, split.length, text));
    split.push(...parts);
  }
  if (split.length > mostReadings)
    return failure({ at: "", what: `${split.length} readings in one cell`, expected: `at most ${mostReadings}` });
  const unit = unitForAll(split);
  if (unit && "what" in unit) return failure(tell(unit, unit.piece, split.indexOf(unit.piece), text));
  return parsePieces(unit ? split.map((piece) => ({ ...piece, unit: unit.unit })) : split, text, options);
}

const longestCell = 20_000;
const mostReadings = 1000;

interface Piece {
  /** The number, with its sign. */
  readonly number: string;
  readonly axis: string;
  readonly unit: string;
  readonly group: number;
  readonly character: number;
}

interface Word {
  readonly text: string;
  readonly group: number;
  readonly character: number;
}

type Complaint = Omit<Problem, "at">;

/** At blanks, new lines and semicolons, and before the next axis letter where the first has one: `X1.5Y2` is two words. */
function splitAtBlanks(text: string): readonly Word[] {
  const words: Word[] = [];
  let group = 0;
  for (const match of text.matchAll(/[\n;]|[^ \t\r\n;\u2000-\u2006\u2008\u200a\u205f\u3000]+/g)) {
    if (match[0] === "\n" || match[0] === ";") {
      group++;
      continue;
    }
    let character = match.index;
    for (const part of splitWord(match[0])) {
      if (!/^[,\u00a0\u2007\u2009\u202f]$/.test(part)) words.push({ text: part, group, character });
      character += part.length;
    }
  }
  return words;
}

/** At a comma behind a unit, which no number holds; blanks that do not break a line stay where they part thousands and part readings elsewhere. */
function splitWord(word: string): readonly string[] {
  if (/^[XYZ]/i.test(word)) return word.split(/(?<=[\d.,-])(?=[XYZ])/i);
  if (/\p{L},/u.test(word)) return word.split(/(?<=\p{L})(,)/u).filter((part) => part !== "");
  if (!/[\u00a0\u2007\u2009\u202f]/.test(word) || /^\D?[1-9]\d{0,2}(?:[\u00a0\u2007\u2009\u202f]\d{3})+(?!\d)/.test(word)) return [word];
  return word.split(/([\u00a0\u2007\u2009\u202f])/).filter((part) => part !== "");
}

/** Puts together what blanks had parted: `X -412.607 mm`, `- 412.607`, `412.607 -`. */
function joinPieces(words: readonly Word[]): readonly Piece[] {
  const pieces: Piece[] = [];
  let axis = "";
  let sign = "";
  let start: Word | undefined;
  for (const [index, word] of words.entries()) {
    const before = pieces.at(-1);
    const next = words[index + 1];
    const isLastOfGroup = next?.group !== word.group;
    const joins = before?.group === word.group;
    if (/^[=:]$/.test(word.text) && axis !== "") continue;
    if (/^[XYZ][=:]?$/i.test(word.text) && !isLastOfGroup) {
      axis = word.text.charAt(0);
      start = word;
    } else if (/^[+\-−–]$/.test(word.text) && !isLastOfGroup) {
      sign = word.text;
      start ??= word;
    } else if (/^[-−–]$/.test(word.text) && before && pieces.length === 1 && index === words.length - 1) {
      pieces[pieces.length - 1] = { ...before, number: `${before.number}-` };
    } else if (findUnit(word.text) && joins && before?.unit === "" && axis === "" && sign === "") {
      pieces[pieces.length - 1] = { ...before, unit: word.text };
    } else {
      const [, letter = "", body = "", unit = ""] = wordParts.exec(word.text) ?? ["", "", word.text];
      const number = body === "" ? { number: sign + word.text, unit: "" } : { number: sign + body, unit };
      pieces.push({ axis: axis || letter, ...number, group: word.group, character: (start ?? word).character });
      [axis, sign, start] = ["", "", undefined];
    }
  }
  return pieces;
}

/** Axis letter, number and unit; each part takes signs that the next one cannot start with, so that nothing is tried twice. */
const wordParts = /^(?:([A-Za-z])[=:]?(?=[+\-−–.,\d]))?([^A-Za-zµμ°]*(?:[eE][+-]?\d+[^A-Za-zµμ°]*)?)([A-Za-zµμ°]*)$/;

/** `12.501,12.502` and a comma at an end part readings; `12,5` is one number; what can be either is asked about. */
function splitAtCommas(piece: Piece, options: ReadingOptions): Piece[] | Complaint {
  const number = piece.number.replace(/,+$/, "");
  const trimmed = number === "" ? piece.number : number;
  if (!trimmed.includes(",")) return [{ ...piece, number: trimmed }];
  const parts = trimmed.split(",");
  const canBeSeveral = parts.filter((part) => part !== "").length > 1 && parts.every((part) => part === "" || simpleNumber.test(part));
  if (!canBeSeveral || options.decimalMark === ",") return [{ ...piece, number: trimmed.replace(/^,(?=[^,]*\.)/, "") }];
  const isOneNumber = parseNumber(trimmed, options).ok;
  const canBeDecimal = /\d,\d/.test(trimmed) && !trimmed.includes(".") && options.decimalMark === undefined;
  if (canBeDecimal && parts.length === 2) return [{ ...piece, number: trimmed }];
  if (canBeDecimal || isOneNumber) {
    const what = `a comma can part readings or be a ${canBeDecimal ? "decimal" : "thousands"} mark`;
    return { what, remedy: "part readings by blanks or semicolons", character: trimmed.indexOf(",") };
  }
  let character = piece.character;
  return parts.flatMap((part, index) => {
    const own: Piece = {
      ...piece,
      number: part,
      axis: index === 0 ? piece.axis : "",
      unit: index === parts.length - 1 ? piece.unit : "",
      character,
    };
    character += part.length + 1;
    return part === "" ? [] : [own];
  });
}

const simpleNumber = /^[+\-−–]?(?:\d+(?:\.\d*)?|\.\d+)-?$/;

/** The unit that goes for all, if only the last number has one; a complaint if some have one and some not. */
function unitForAll(pieces: readonly Piece[]): { readonly unit: string } | (Complaint & { readonly piece: Piece }) | undefined {
  const bare = pieces.filter((piece) => piece.unit === "");
  const last = pieces.at(-1);
  if (last === undefined || bare.length === 0 || bare.length === pieces.length) return undefined;
  // What is no unit of length is left where it stands, to be complained about there.
  if (bare.length === pieces.length - 1 && last.unit !== "") return findUnit(last.unit)?.dimension.length === 1 ? { unit: last.unit } : undefined;
  const [piece = last] = bare;
  return { what: "some readings have a unit and some have none", remedy: "write the unit behind each, or behind the last alone", piece };
}

function parsePieces(pieces: readonly Piece[], text: string, options: ReadingOptions): Outcome<readonly ScannedReading[]> {
  const readings: ScannedReading[] = [];
  for (const [index, piece] of pieces.entries()) {
    if (!/\p{Nd}/u.test(piece.number))
      return failure(tell({ what: "it is not a number", expected: "a number", character: 0 }, piece, index, text));
    const quantity = parseLength(piece.number + (piece.unit && ` ${piece.unit}`), options);
    if (!quantity.ok) return failure(...quantity.problems.map((problem) => tell(problem, piece, index, text)));
    if (quantity.value.decimals === undefined)
      return failure(tell({ what: "it is not a plain number", expected: "one number" }, piece, index, text));
    const axis = piece.axis.toUpperCase();
    if (!isAxisLetter(axis) && axis !== "") {
      return failure(
        tell({ what: `"${piece.axis}" is not the letter of an axis`, expected: "X, Y or Z", character: 0 }, piece, index, text),
      );
    }
    readings.push({
      quantity: quantity.value,
      axis: isAxisLetter(axis) ? axis : undefined,
      group: piece.group,
      character: piece.character,
    });
  }
  return success(readings);
}

function isAxisLetter(letter: string): letter is AxisLetter {
  return letter === "X" || letter === "Y" || letter === "Z";
}

/** A problem of one number, told about the cell: which number, and where in the cell. */
function tell(problem: Complaint, piece: Piece, index: number, text: string): Problem {
  const typed = `${piece.axis}${piece.number}${piece.unit}`;
  const shown = typed.length > 40 ? `${typed.slice(0, 40)}…` : typed;
  const character = piece.character + piece.axis.length + (problem.character ?? 0);
  return {
    ...problem,
    at: "",
    what: `reading ${index + 1}, "${shown}": ${problem.what}`,
    got: text,
    character: Math.min(character, text.length),
  };
}
