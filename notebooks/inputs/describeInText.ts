import { describeProblem, type Problem } from "../../lib/base/outcome.ts";

/** So much of a long entry is told on either side of where the trouble starts, characters. */
const around = 40;

/** What is wrong with an entry, in words; where it does not start with its first character, the entry is told with a mark where it does. */
export function describeInText(problem: Problem, text: string): string {
  const { got, ...rest } = problem;
  const { character = 0 } = problem;
  if (character <= 0 || character > text.length) return describeProblem({ ...problem, at: "" });
  // What is told with the mark need not be told twice.
  const isWhole = got?.trim() === text.trim();
  const [before, after] = [text.slice(0, character), text.slice(character)];
  const [start, end] = [
    before.length > around ? `…${before.slice(-around)}` : before,
    after.length > around ? `${after.slice(0, around)}…` : after,
  ];
  return `${describeProblem({ ...(isWhole ? rest : problem), at: "" })} Here: ${start.trimStart()}▸${end.trimEnd()}`.replaceAll(
    /\s+/g,
    " ",
  );
}
