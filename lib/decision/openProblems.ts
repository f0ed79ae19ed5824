import type { Outcome, Problem } from "../base/outcome.ts";
import { type Agreement, disagreeBelow } from "../frame/agreement.ts";
import type { SetupEvaluation, StrategyEvaluation } from "./setupEvaluation.ts";
import { suspicions } from "./suspicions.ts";

/**
 * Everything that waits for a person: entries that could not be read or used,
 * strategies that could not be solved, what the chosen strategy leaves
 * undetermined, touches that contradict each other, and what looks like a slip. Each said once, in document order of its kind.
 */
export function openProblems(evaluation: SetupEvaluation, chosen: Outcome<StrategyEvaluation>): Problem[] {
  const { problems, strategies } = evaluation;
  const unsolved = strategies.flatMap(({ evaluation }) => (evaluation.ok ? [] : evaluation.problems));
  const undetermined = chosen.ok ? chosen.value.zero.flatMap((axis) => (axis.ok ? [] : axis.problems)) : chosen.problems;
  const unjudged = chosen.ok ? chosen.value.thisPart.stacks.flatMap((stack) => (stack.ok ? [] : stack.problems)) : [];
  const seen = new Set<string>();
  return [...problems, ...unsolved, ...undetermined, ...unjudged, ...disagreement(evaluation, chosen), ...suspicions(evaluation)].filter(
    ({ at, what }) => {
      const key = JSON.stringify([at, what]);
      return !seen.has(key) && seen.add(key);
    },
  );
}

/** While touches disagree, what is told as the uncertainty of the zero is none. */
function disagreement({ location: { thisPart } }: SetupEvaluation, chosen: Outcome<StrategyEvaluation>): Problem[] {
  const isSo = (agreement: Agreement | undefined) => agreement !== undefined && agreement.chance < disagreeBelow;
  const remedy = "see at the comparison which one lies off, and touch there again before this zero is used";
  if (chosen.ok && isSo(chosen.value.solution.frame.agreement))
    return [
      {
        at: `strategies.${chosen.value.id}.touches`,
        what: "its touches disagree by more than their doubts explain, so the uncertainty of its zero is not what is told",
        remedy,
      },
    ];
  return thisPart.ok && isSo(thisPart.value.agreement)
    ? [{ at: "touches", what: "the touches of this part disagree by more than their doubts explain", remedy }]
    : [];
}
