/** A word of a formula: the name of a cell, a function, a unit. For expressions with the flag u. */
export const wordPattern = "[\\p{L}_][\\p{L}\\p{M}\\d_]*";

export const longestName = 80;

/** A number with any marks between its digits. */
export const numberPattern = "(?:\\d+(?:[.,'\\u00a0]\\d+)*\\.?|\\.\\d+)(?:[eE][+-]?\\d+)?";

/** A formula in pieces: numbers, words, single signs. For expressions with the flags g and u. */
export const piecePattern = `${numberPattern}|${wordPattern}|\\S`;
