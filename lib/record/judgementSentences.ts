import { describeProblem } from "../base/outcome.ts";
import type { SetupEvaluation } from "../decision/setupEvaluation.ts";
import { suspicions } from "../decision/suspicions.ts";
import { agreementSentences } from "./internals/agreementSentences.ts";
import { bendSentences } from "./internals/bendSentences.ts";
import { datumShiftSentences } from "./internals/datumShiftSentences.ts";
import { figuresIn } from "./internals/figures.ts";
import { inspectionSentences } from "./internals/inspectionSentences.ts";
import { lobingSentences } from "./internals/lobingSentences.ts";
import { plannedSentences } from "./internals/plannedSentences.ts";
import { rankingSentences } from "./internals/rankingSentences.ts";
import { sizeSentences } from "./internals/sizeSentences.ts";
import { skewSentences } from "./internals/skewSentences.ts";
import { tiltSentences } from "./internals/tiltSentences.ts";
import { zeroSentences } from "./internals/zeroSentences.ts";
import type { StrategyBend } from "./strategyBend.ts";

/** A judgement in words, where numbers alone would leave the reader to guess. */
export interface JudgementSentence {
  readonly kind:
    | "ranking"
    | "evidence"
    | "first order"
    | "choice"
    | "bottleneck"
    | "inspection"
    | "worst case"
    | "smaller uncertainty"
    | "size disagrees"
    | "size agrees"
    | "touches disagree"
    | "tilt"
    | "skew"
    | "form error"
    | "datum shift"
    | "planned places"
    | "suspicious entry"
    | "consistency";
  /** Path of what it is about in the document. */
  readonly at: string;
  readonly text: string;
}

/**
 * What a person should know before they look at any table: which strategy is ranked first and what that rests on, which
 * characteristic is the bottleneck, whether a zero that is known better is the better zero, and where evidence disagrees.
 *
 * @param unit of the lengths in the sentences; the document's own unless given
 * @param bends where first order does not hold, of the strategies of which that is known
 */
export function judgementSentences(
  evaluation: SetupEvaluation,
  { unit = evaluation.setup.unit, bends = [] }: { readonly unit?: "mm" | "inch"; readonly bends?: readonly StrategyBend[] } = {},
): JudgementSentence[] {
  const figures = figuresIn(unit);
  return [
    ...rankingSentences(evaluation, figures),
    ...bendSentences(evaluation, bends, unit),
    ...zeroSentences(evaluation, figures),
    ...agreementSentences(evaluation, figures),
    ...sizeSentences(evaluation, figures),
    ...tiltSentences(evaluation, figures),
    ...skewSentences(evaluation, figures),
    ...lobingSentences(evaluation, figures),
    ...datumShiftSentences(evaluation, figures),
    ...plannedSentences(evaluation),
    ...inspectionSentences(evaluation, figures),
    ...suspicions(evaluation).map((problem) => ({
      kind: "suspicious entry" as const,
      at: problem.at,
      text: `Look again: ${describeProblem(problem)}`,
    })),
  ];
}
