/** A space as wide as a digit, and one as wide as a point. */
const digitSpace = "\u2007";
const pointSpace = "\u2008";

/** What stands behind each number, so that all of a column, set to the right, have their decimal points above each other. */
export function alignDecimals(texts: readonly string[]): string[] {
  const lengths = texts.map((text) => {
    const point = text.indexOf(".");
    return /\d/.test(text) ? (point < 0 ? 0 : text.length - point) : undefined;
  });
  const longest = Math.max(0, ...lengths.map((length) => length ?? 0));
  return lengths.map((length) => {
    if (length === undefined || longest === 0) return "";
    return length === 0 ? pointSpace + digitSpace.repeat(longest - 1) : digitSpace.repeat(longest - length);
  });
}
