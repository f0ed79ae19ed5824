import { failure, type Outcome, success } from "../base/outcome.ts";

/** Longest text that is read from outside, in characters. */
export const longestExchange = 20_000_000;

/** The text without a byte order mark; refused where it is longer than anything that is brought in, or empty. */
export function usableText(text: string, expected: string): Outcome<string> {
  if (text.length > longestExchange)
    return failure({
      at: "",
      what: `the text has ${text.length} characters`,
      expected: `at most ${longestExchange}`,
      remedy: "bring in a part of it",
    });
  if (text.trim() === "") return failure({ at: "", what: "nothing is there", expected, got: text.slice(0, 80) });
  return success(text.startsWith("\ufeff") ? text.slice(1) : text);
}
