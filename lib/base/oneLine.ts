/**
 * The text on one line: line ends, tabs and all other control characters become a space, so that a name or an entry that
 * a person (or a stranger's file) holds cannot break a line, steer a terminal, or turn the direction of what follows.
 */
export function oneLine(text: string): string {
  return text.replace(/[\p{Cc}\u2028\u2029\u202a-\u202e\u2066-\u2069]+/gu, " ");
}
