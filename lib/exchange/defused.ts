/**
 * What a spreadsheet program would work out rather than show: `=`, `+`, `-`, `@`, a tab or a line end in front, blanks before them or
 * not, and the full-width forms of these signs. Apostrophes are counted in, so that `undefused` is the way back for every text.
 */
const formulaLike = /^'*\s*(?:[=+\-@\t\r\n]|[\uff1d\uff0b\uff0d\uff20])/u;

/**
 * A text that no spreadsheet program takes for a formula when it opens a file of cells: with an apostrophe in front where it would.
 * Common practice, no standard: RFC 4180 knows no formulas.
 */
export function defused(text: string): string {
  return formulaLike.test(text) ? `'${text}` : text;
}

/** The text that `defused` has changed, as it was; any other text as it is. */
export function undefused(text: string): string {
  return text.startsWith("'") && formulaLike.test(text.slice(1)) ? text.slice(1) : text;
}
