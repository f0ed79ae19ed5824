import type { Problem } from "../../lib/base/outcome.ts";

/** Why something is not known, in one sentence: the first reason, and how many more there are. */
export function outcomeInWords(problems: readonly Problem[]): string {
  const [first] = problems;
  if (first === undefined) return "not known";
  const got = first.got ? ` (${first.got})` : "";
  const others = problems.length > 1 ? `, and ${problems.length - 1} more` : "";
  return `${first.what}${got}${others}`;
}
