import type { Outcome, Problem } from "../base/outcome.ts";
import type { SetupEvaluation, StrategyEvaluation } from "./setupEvaluation.ts";
import { suspicions } from "./suspicions.ts";

/**
 * Everything that waits for a person: entries that could not be read or used,
 * strategies that could not be solved, what the chosen strategy leaves
 * undetermined, and what looks like a slip. Each said once, in document order of its kind.
 */
export function openProblems(evaluation: SetupEvaluation, chosen: Outcome<StrategyEvaluation>): Problem[] {
  const { problems, strategies } = evaluation;
  const unsolved = strategies.flatMap(({ evaluation }) => (evaluation.ok ? [] : evaluation.problems));
  const undetermined = chosen.ok ? chosen.value.zero.flatMap((axis) => (axis.ok ? [] : axis.problems)) : chosen.problems;
  const unjudged = chosen.ok ? chosen.value.thisPart.stacks.flatMap((stack) => (stack.ok ? [] : stack.problems)) : [];
  const seen = new Set<string>();
  return [...problems, ...unsolved, ...undetermined, ...unjudged, ...suspicions(evaluation)].filter(({ at, what }) => {
    const key = JSON.stringify([at, what]);
    return !seen.has(key) && seen.add(key);
  });
}
