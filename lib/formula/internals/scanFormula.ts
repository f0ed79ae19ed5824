import { suggestName } from "../../base/nearestName.ts";
import { failure, type Outcome, type Problem, success } from "../../base/outcome.ts";
import { functionNames, isFunctionName } from "../expression.ts";
import { normaliseText } from "../normaliseText.ts";
import { type NumberOptions, parseNumber } from "../parseNumber.ts";
import { constants, refusedWords } from "../reservedNames.ts";
import { findUnit, type Unit, unitSpellings } from "../units.ts";
import { longestName, numberPattern, wordPattern } from "./words.ts";

/** A piece of a formula and the index in the typed text where it starts. */
export type Token =
  | { readonly kind: "number"; readonly value: number; readonly decimals: number; readonly text: string; readonly character: number }
  | { readonly kind: "unit"; readonly unit: Unit; readonly text: string; readonly character: number }
  | { readonly kind: "name" | "constant" | "function"; readonly text: string; readonly character: number }
  | { readonly kind: "sign"; readonly text: Sign; readonly character: number };

export type Sign = "+" | "-" | "*" | "/" | "^" | "(" | ")" | ",";

/** A typed text, or a stretch of one, with one spelling for every sign. */
export interface FormulaText {
  /** The whole entry, for problems to quote. */
  readonly typed: string;
  readonly text: string;
  /** The index in `typed` of each character of `text`, and of its end. */
  characterAt(index: number): number;
}

/** Makes a typed text ready to be read; refuses more than 2000 characters and signs that nothing here understands. */
export function openFormula(typed: string): Outcome<FormulaText> {
  if (typed.length > longestFormula) {
    const what = `a formula of ${typed.length} characters`;
    return failure({ at: "", what, expected: `at most ${longestFormula} characters`, got: typed, remedy: "split it into several cells" });
  }
  const normalised = normaliseText(typed);
  return normalised.ok ? success({ typed, ...normalised.value }) : normalised;
}

/** The stretch of a text from `start` up to `end`. */
export function stretchOf({ typed, text, characterAt }: FormulaText, start: number, end: number): FormulaText {
  return { typed, text: text.slice(start, end), characterAt: (index) => characterAt(start + index) };
}

/**
 * Splits a typed formula into its pieces, and refuses with a place and a reason
 * whatever no formula here may hold: unknown signs and words, brackets deeper than 50, two values with no operator between
 * them. Only a number followed by a unit may stand side by side.
 *
 * A comma between digits is a decimal comma outside the brackets of a function
 * and asked about inside them; a semicolon always parts arguments.
 */
export function scanFormula({ typed, text, characterAt }: FormulaText, options: NumberOptions = {}): Outcome<readonly Token[]> {
  const tokens: Token[] = [];
  /** For each open bracket, whether it holds the arguments of a function. */
  const brackets: boolean[] = [];

  for (let index = 0; index < text.length; ) {
    if (/\s/.test(text.charAt(index))) {
      index++;
      continue;
    }
    const scanned = scanToken(text, index, tokens.at(-1), brackets, options);
    if ("what" in scanned) {
      const character = scanned.character ?? index;
      return failure({ ...scanned, at: "", got: typed, character: characterAt(character) });
    }
    const { token, end } = scanned;
    const gap = complainAboutGap(tokens.at(-1), token, text.slice(end, end + longestBlank));
    if (gap) return failure({ at: "", got: typed, ...gap, character: characterAt(index) });
    if (token.kind === "sign" && token.text === "(") brackets.push(tokens.at(-1)?.kind === "function");
    if (token.kind === "sign" && token.text === ")") brackets.pop();
    if (brackets.length > deepestBracket) {
      const what = `brackets more than ${deepestBracket} deep`;
      return failure({ at: "", what, remedy: "split the formula into several cells", character: characterAt(index) });
    }
    tokens.push({ ...token, character: characterAt(index) });
    index = end;
  }
  return success(tokens);
}

const longestFormula = 2000;
const deepestBracket = 50;

type Complaint = Omit<Problem, "at">;
type Scanned = { readonly token: Token; readonly end: number } | Complaint;

function scanToken(text: string, index: number, before: Token | undefined, brackets: readonly boolean[], options: NumberOptions): Scanned {
  const sign = text.charAt(index);
  if (/\d/.test(sign) || (sign === "." && /\d/.test(text.charAt(index + 1))))
    return scanNumber(text, index, brackets.at(-1) === true, options);
  if (wordStart.test(characterFrom(text, index))) return scanWord(text, index, before);
  if (sign === "," || sign === ";") return scanSeparator(index, brackets);
  if (isSign(sign)) return { token: { kind: "sign", text: sign, character: index }, end: index + 1 };
  const remedy = signRemedies.get(sign);
  return {
    what: `the sign ${visible(characterFrom(text, index))} is not understood in a formula`,
    ...(remedy && { remedy }),
    character: index,
  };
}

/** With marks between digits; a comma only where it cannot part two arguments. */
function scanNumber(text: string, index: number, inCall: boolean, options: NumberOptions): Scanned {
  const pattern = inCall && options.decimalMark !== "," ? numberWithoutComma : numberWithComma;
  pattern.lastIndex = index;
  const found = pattern.exec(text)?.[0] ?? "";
  const end = index + found.length;
  if (inCall && options.decimalMark === undefined && /^,\d/.test(text.slice(end, end + 2))) {
    const what = "the comma can be a decimal mark or part two arguments";
    return { what, remedy: "write a decimal point, or a blank or semicolon behind the comma that parts arguments", character: end };
  }
  const parsed = parseNumber(found, options);
  if (!parsed.ok) {
    const [problem] = parsed.problems;
    return { what: `"${found}" is not a number`, ...problem, character: index + (problem?.character ?? 0) };
  }
  const { value, decimals, understoodAs } = parsed.value;
  return { token: { kind: "number", value, decimals, text: understoodAs, character: index }, end };
}

const numberWithComma = new RegExp(numberPattern, "y");
const numberWithoutComma = /(?:\d+(?:['\u00a0]\d+)*(?:\.\d*)?|\.\d+)(?:e[+-]?\d+)?/iy;
const wordStart = /^[\p{L}_]/u;
const word = new RegExp(wordPattern, "uy");

function scanWord(text: string, index: number, before: Token | undefined): Scanned {
  word.lastIndex = index;
  const found = word.exec(text)?.[0] ?? "";
  const end = index + found.length;
  const called = /^\s*\(/.test(text.slice(end, end + longestBlank));
  const token = (kind: "name" | "constant" | "function"): Scanned => ({ token: { kind, text: found, character: index }, end });

  if (found.length > longestName)
    return { what: `a name of ${found.length} characters`, expected: `at most ${longestName}`, character: index };
  if (refusedWords.has(found))
    return { what: `"${found}" is not understood in a formula`, ...refusedRemedies.get(found), character: index };
  const unit = findUnit(found);
  if (before?.kind === "number" && !isFunctionName(found) && !constants.has(found)) {
    if (unit) return { token: { kind: "unit", unit, text: found, character: index }, end };
    const what = `"${found}" behind a number is not a unit: it is misspelled, or an operator is missing`;
    return { what, ...suggestName(found, unitSpellings()), character: index };
  }
  if (unit && (before?.kind === "unit" || (before?.kind === "sign" && before.text === ")")))
    return complainAboutConversion(found, before, index);
  if (unit) return { what: `the unit "${found}" needs a number before it`, remedy: `write 1 ${found}`, character: index };
  if (isFunctionName(found))
    return called ? token("function") : { what: `the function ${found} needs brackets`, remedy: `write ${found}( )`, character: index };
  if (called) return { what: `there is no function "${found}"`, ...suggestName(found, functionNames), character: index };
  return token(constants.has(found) ? "constant" : "name");
}

const longestBlank = 20;
const conversionRemedy = "leave the conversion out: a value is converted where it is shown";
const refusedRemedies: ReadonlyMap<string, { readonly remedy: string }> = new Map([
  ["to", { remedy: conversionRemedy }],
  ["not", { remedy: "a limit stands behind a whole formula, as in 0.02 mm not below 0 mm; for a limit above, take such a cell from it" }],
]);

function complainAboutConversion(found: string, before: Token, character: number): Complaint {
  if (before.kind === "unit" && before.text === "in") {
    return {
      what: `"in ${found}" reads like a conversion; a formula converts nothing`,
      remedy: conversionRemedy,
      character: before.character,
    };
  }
  const remedy = found === "in" && before.kind === "unit" ? conversionRemedy : `write * 1 ${found} if it was meant as a factor`;
  return { what: `the unit "${found}" must stand directly behind a number`, remedy, character };
}

function scanSeparator(index: number, brackets: readonly boolean[]): Scanned {
  if (brackets.at(-1) === true) return { token: { kind: "sign", text: ",", character: index }, end: index + 1 };
  return { what: "only the arguments of a function are parted", remedy: "write one formula in each place", character: index };
}

function isSign(sign: string): sign is Sign {
  return sign !== "" && "+-*/^(),".includes(sign);
}

const signRemedies: ReadonlyMap<string, string> = new Map([
  ['"', "write in for inches or arcsec for seconds of arc"],
  ["'", "write ft for feet or arcmin for minutes of arc"],
  ["%", "write the share as a number: 0.1 for ten per cent"],
  ["=", "leave the equals sign out"],
  ["[", "write round brackets"],
  ["]", "write round brackets"],
  ["{", "write round brackets"],
  ["}", "write round brackets"],
  [":", "write / for a ratio"],
]);

/** Two values side by side: what is missing between them. */
function complainAboutGap(before: Token | undefined, token: Token, behind: string): Complaint | undefined {
  if (!before || !endsValue(before) || !startsValue(token)) return undefined;
  if (before.kind === "number" && token.kind === "unit") return undefined;
  const what = `an operator is missing between "${before.text}" and "${token.text}"`;
  if (before.kind !== "number" || token.kind !== "number") return { what };
  const isMixed = /^\s*\/\s*\d/.test(behind);
  return { what, remedy: isMixed ? "write a mixed number such as 5 1/4 as 5.25" : "remove the blank if it parts thousands" };
}

function endsValue(token: Token): boolean {
  return token.kind === "sign" ? token.text === ")" : token.kind !== "function";
}

/** The whole character, also where it takes two units of the string. */
function characterFrom(text: string, index: number): string {
  return String.fromCodePoint(text.codePointAt(index) ?? 0);
}

/** A sign that shows nothing, or turns the direction of what follows, by its number. */
function visible(sign: string): string {
  const code = sign.codePointAt(0) ?? 0;
  return /[\p{C}\p{Z}\p{M}]/u.test(sign) ? `U+${code.toString(16).toUpperCase().padStart(4, "0")}` : sign;
}

function startsValue(token: Token): boolean {
  return token.kind === "sign" ? token.text === "(" : true;
}
