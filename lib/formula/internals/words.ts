/** A word of a formula: the name of a cell, a function, a unit. For expressions with the flag u. */
export const wordPattern = "[\\p{L}_][\\p{L}\\p{M}\\d_]*";

/** The two words that part a value from what it cannot be below. */
export const notBelowPattern = "(?<![\\p{L}\\p{M}\\d_])not\\s+below(?![\\p{L}\\p{M}\\d_])";

/** Whether a word ends what parts a statement, so that a value may follow it; `before` is the piece that stands before it. */
export function partsStatement(word: string, before: string | undefined): boolean {
  return word === "within" || word === "from" || word === "to" || (word === "below" && before === "not");
}

export const longestName = 80;

/** A number with any marks between its digits. */
export const numberPattern = "(?:\\d+(?:[.,'\\u00a0]\\d+)*\\.?|\\.\\d+)(?:[eE][+-]?\\d+)?";

/** A formula in pieces: numbers, words, single signs. For expressions with the flags g and u. */
export const piecePattern = `${numberPattern}|${wordPattern}|\\S`;
