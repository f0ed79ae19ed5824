import { describeProblem } from "../../base/outcome.ts";
import type { SetupEvaluation } from "../../decision/setupEvaluation.ts";
import { type JudgementSentence, judgementSentences } from "../judgementSentences.ts";
import { obstacles } from "../obstacles.ts";
import { strategyInUse } from "../strategyInUse.ts";

/** Sentences that contradict a first impression. */
const contradicting: ReadonlySet<JudgementSentence["kind"]> = new Set([
  "choice",
  "smaller uncertainty",
  "size disagrees",
  "touches disagree",
  "suspicious entry",
]);

/** What a reader of the numbers alone would miss, one line each: what is not known, and the sentences that contradict a first impression. */
export function plainWarnings(evaluation: SetupEvaluation) {
  const unknown = strategyInUse(evaluation)?.evaluation.zero.flatMap((axis) => (axis.ok ? [] : axis.problems)) ?? [];
  const problems = [...obstacles(evaluation), ...unknown].map((problem) => ({
    kind: "problem" as const,
    at: problem.at,
    text: describeProblem(problem),
  }));
  const told = problems.filter(({ text }, i) => problems.findIndex((other) => other.text === text) === i);
  return [...told, ...judgementSentences(evaluation).filter(({ kind }) => contradicting.has(kind))];
}
