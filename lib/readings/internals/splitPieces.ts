import type { Problem } from "../../base/outcome.ts";
import { type NumberOptions, parseNumber } from "../../formula/parseNumber.ts";
import { findUnit } from "../../formula/units.ts";

/** One number of a cell, its parts apart but not yet read. */
export interface Piece {
  /** The number, with its sign. */
  readonly number: string;
  readonly axis: string;
  readonly unit: string;
  readonly group: number;
  readonly character: number;
  /** Its place in the order, from 0. */
  readonly index: number;
}

/** What is wrong with one piece; `character` counts from where its number starts. */
export interface PieceProblem extends Omit<Problem, "at"> {
  readonly piece: Piece;
}

/** The numbers of a cell, each with its axis letter and unit, or what is wrong with one of them. */
export function splitPieces(text: string, options: NumberOptions): readonly Piece[] | PieceProblem {
  const pieces: Piece[] = [];
  for (const piece of joinWords(splitWords(text))) {
    const parts = splitAtCommas({ ...piece, index: pieces.length }, options);
    if ("what" in parts) return parts;
    pieces.push(...parts.map((part, index) => ({ ...part, index: pieces.length + index })));
  }
  return pieces;
}

interface Word {
  readonly text: string;
  readonly group: number;
  readonly character: number;
}

/** At blanks, new lines and semicolons, and before the next axis letter where the first has one: `X1.5Y2` is two words. */
function splitWords(text: string): readonly Word[] {
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
function joinWords(words: readonly Word[]): readonly Omit<Piece, "index">[] {
  const pieces: Omit<Piece, "index">[] = [];
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
      const [, letter = "", body = "", unit = ""] = wordParts.exec(word.text) ?? [];
      // A second letter, or a word without a number, stays where it is, to be complained about there.
      const isOdd = body === "" || (axis !== "" && letter !== "");
      const number = isOdd ? { number: sign + word.text, unit: "" } : { number: sign + body, unit };
      pieces.push({ axis: axis || letter, ...number, group: word.group, character: (start ?? word).character });
      [axis, sign, start] = ["", "", undefined];
    }
  }
  return pieces;
}

/** Axis letter, number and unit; each part takes signs that the next one cannot start with, so that nothing is tried twice. */
const wordParts = /^(?:([A-Za-z])[=:]?(?=[+\-−–.,\d]))?([^A-Za-zµμ°]*(?:[eE][+-]?\d+[^A-Za-zµμ°]*)?)([A-Za-zµμ°]*)$/;

/** `12.501,12.502` and a comma at an end part readings; `12,5` is one number; what can be either is asked about. */
function splitAtCommas(piece: Piece, options: NumberOptions): readonly Piece[] | PieceProblem {
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
    return { what, remedy: "part readings by blanks or semicolons", character: trimmed.indexOf(","), piece };
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
