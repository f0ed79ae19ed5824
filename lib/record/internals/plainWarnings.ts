import { describeProblem } from "../../base/outcome.ts";
import type { SetupEvaluation } from "../../decision/setupEvaluation.ts";
import { judgementSentences } from "../judgementSentences.ts";
import { obstacles } from "../obstacles.ts";
import { strategyInUse } from "../strategyInUse.ts";

/** What a reader of the numbers alone would miss, one line each: what is not known, and the sentences that contradict a first impression. */
export function plainWarnings(evaluation: SetupEvaluation) {
  const unknown = strategyInUse(evaluation)?.evaluation.zero.flatMap((axis) => (axis.ok ? [] : axis.problems)) ?? [];
  const problems = [...obstacles(evaluation), ...unknown].map((problem) => ({
    kind: "problem" as const,
    at: problem.at,
    text: describeProblem(problem),
  }));
  const told = problems.filter(({ text }, i) => problems.findIndex((other) => other.text === text) === i);
  return [
    ...told,
    ...judgementSentences(evaluation).filter(
      ({ kind }) => kind === "choice" || kind === "smaller uncertainty" || kind === "size disagrees" || kind === "touches disagree",
    ),
  ];
}
