import { failure, type Outcome, success } from "../base/outcome.ts";

/** Longest text that is read from outside, in characters. */
export const longestExchange = 20_000_000;

/** The text without a byte order mark; refused where it is longer than anything that is brought in, or empty. */
export function usableText(text: string, expected: string): Outcome<string> {
  const length = atMost(longestExchange, text.length, "the text has", "characters");
  if (!length.ok) return length;
  if (text.trim() === "") return failure({ at: "", what: "nothing is there", expected, got: text.slice(0, 80) });
  return success(text.startsWith("\ufeff") ? text.slice(1) : text);
}

/** Refuses what has more of something than is taken: `the text has 200000 lines`. */
export function atMost(most: number, count: number, owner: string, things: string, remedy = "bring in a part of it"): Outcome<undefined> {
  return count <= most ? success(undefined) : failure({ at: "", what: `${owner} ${count} ${things}`, expected: `at most ${most}`, remedy });
}
