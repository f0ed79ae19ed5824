import { failure, type Outcome, success } from "../../base/outcome.ts";
import { findUnit, type Unit } from "../units.ts";
import { type FormulaText, stretchOf } from "./scanFormula.ts";
import { notBelowPattern, wordPattern } from "./words.ts";

export type MarkKind = "plusMinus" | "within" | "notBelow" | "from" | "to" | "semicolon" | "bar";

/** What parts a statement into its formula and its doubt, and the indices where it starts and ends. */
export interface Mark {
  readonly kind: MarkKind;
  readonly start: number;
  readonly end: number;
}

/** The marks outside all brackets, in order; `from` and `to` only where a statement starts with from. */
export function marksIn({ typed, text, characterAt }: FormulaText): Outcome<readonly Mark[]> {
  const marks: Mark[] = [];
  let depth = 0;
  let isFirst = true;
  piece.lastIndex = 0;
  for (let match = piece.exec(text); match !== null; match = piece.exec(text)) {
    const { 0: found, index: start } = match;
    const end = start + found.length;
    const kind = kindOf(found, isFirst, marks[0]?.kind === "from");
    isFirst = false;
    if (found === "(") depth++;
    else if (found === ")") depth--;
    else if (kind === "plusMinus" && depth > 0) return failure({ at: "", got: typed, character: characterAt(start), ...inBrackets(found) });
    else if (kind && depth <= 0 && !isWithinPlusMinus(kind, marks.at(-1), text, start)) marks.push({ kind, start, end });
    else if (kind && depth <= 0) marks[marks.length - 1] = { ...(marks.at(-1) as Mark), end };
  }
  return success(marks);
}

/** Begun anew for every text, since a copy for each would be compiled each time. Words as the formula itself has them, so that none is found inside a longer name; then what parts a statement; then anything else. */
const piece = new RegExp(`${notBelowPattern}|${wordPattern}|\u00b1|\\+/-|\\+-|\\S`, "gu");

const notBelow = new RegExp(`^${notBelowPattern}$`, "u");

function kindOf(found: string, isFirst: boolean, isFromTo: boolean): MarkKind | undefined {
  if (found === "\u00b1" || found === "+-" || found === "+/-") return "plusMinus";
  if (found === ";") return "semicolon";
  if (found === "|") return "bar";
  if (found === "within") return "within";
  if (found.startsWith("not") && notBelow.test(found)) return "notBelow";
  if (found === "from" && isFirst) return "from";
  return found === "to" && isFromTo ? "to" : undefined;
}

/** `within ± 0.01 mm` says the same as `within 0.01 mm`. */
function isWithinPlusMinus(kind: MarkKind, before: Mark | undefined, text: string, start: number): boolean {
  return kind === "plusMinus" && before?.kind === "within" && text.slice(before.end, start).trim() === "";
}

function inBrackets(found: string) {
  return {
    what: `${found} stands inside brackets: a value has its doubt behind the whole formula`,
    remedy:
      found === "\u00b1"
        ? "give this part a cell of its own"
        : `give this part a cell of its own, or part the signs if ${found} was not meant as plus or minus`,
  };
}

/** A statement inside one pair of brackets, and the unit behind them that goes for all of it: `(12.500 ± 0.002) mm`. */
export interface Unwrapped {
  readonly inside: FormulaText;
  readonly unit: Unit | undefined;
}

/** Undefined where the brackets do not hold all of it, or hold no mark. */
export function unwrap(body: FormulaText): Unwrapped | undefined {
  const { text } = body;
  const open = text.search(/\S/);
  if (text.charAt(open) !== "(") return undefined;
  const close = closingBracket(text, open);
  const behind = text.slice(close + 1).trim();
  const unit = findUnit(behind);
  if (close < 0 || (behind !== "" && !unit)) return undefined;
  const inside = stretchOf(body, open + 1, close);
  const marks = marksIn(inside);
  return !marks.ok || marks.value.length > 0 ? { inside, unit } : undefined;
}

function closingBracket(text: string, open: number): number {
  let depth = 0;
  for (let index = open; index < text.length; index++) {
    if (text.charAt(index) === "(") depth++;
    if (text.charAt(index) === ")" && --depth === 0) return index;
  }
  return -1;
}
