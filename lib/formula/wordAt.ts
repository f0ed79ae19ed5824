import { partsStatement, piecePattern, wordPattern } from "./internals/words.ts";

/** A word of a formula that is being typed, as far as the caret. */
export interface WordAtCaret {
  readonly word: string;
  /** Where it begins, and where the whole of it ends: behind the caret where that stands within it. */
  readonly start: number;
  readonly end: number;
  /** What can stand there: behind a number a unit, elsewhere the name of a value or a function. */
  readonly kind: "name" | "unit";
}

/**
 * The word of a formula in which the caret stands, or an empty one where a word could begin; undefined where neither can be: within a number, or
 * behind a word.
 */
export function wordAt(text: string, caret: number): WordAtCaret | undefined {
  let before: string | undefined;
  let beforeThat: string | undefined;
  for (const { 0: piece, index } of text.matchAll(pieces)) {
    const end = index + piece.length;
    if (index >= caret) break;
    if (end >= caret && word.test(piece)) return placed(text.slice(index, caret), index, end, before);
    if (end > caret || (end === caret && number.test(piece))) return undefined;
    // Behind what parts a statement a value begins anew.
    [beforeThat, before] = [piece, partsStatement(piece, beforeThat) ? undefined : piece];
  }
  return placed("", caret, caret, before);
}

function placed(typed: string, start: number, end: number, before: string | undefined): WordAtCaret | undefined {
  if (before !== undefined && word.test(before)) return undefined;
  return { word: typed, start, end, kind: before !== undefined && number.test(before) ? "unit" : "name" };
}

const pieces = new RegExp(piecePattern, "gu");
const word = new RegExp(`^${wordPattern}$`, "u");
const number = /^[\d.]/;
