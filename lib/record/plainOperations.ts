import { describeProblem } from "../base/outcome.ts";
import type { FinishedJudgement, FinishedPart } from "../decision/finishedPart.ts";
import type { OwnEvaluation, SetupEvaluation } from "../decision/setupEvaluation.ts";
import { Draws } from "../uncertainty/draws.ts";
import { briefResults } from "./briefResults.ts";
import { plainStack } from "./internals/plainJudgement.ts";
import { plainOutcome } from "./internals/plainProblem.ts";
import { plainResults } from "./plainResults.ts";

/** The version of the layout: raised when an entry changes its meaning or goes away. */
const operationsVersion = 1 as const;

/** Everything that `plainOperations` gives. */
export type PlainOperations = ReturnType<typeof plainOperations>;

/**
 * All operations of a part as plain data (see plainResults), and the drawing judged on the finished part, each characteristic by the strategy in use
 * in the operation that cuts the last of its elements.
 */
export function plainOperations(title: string, operations: readonly (SetupEvaluation & Partial<OwnEvaluation>)[], finished: FinishedPart) {
  const { seed = 1, trials = 1 } = operations[0]?.setup.sampling ?? {};
  const draws = new Draws(seed, trials);
  return {
    format: "datumbook results of operations" as const,
    version: operationsVersion,
    title,
    finished: { thisPart: plainFinished(finished.thisPart, draws), batch: plainFinished(finished.batch, draws) },
    operations: operations.map((evaluation) => ({ id: evaluation.setup.operation?.id ?? "", results: plainResults(evaluation) })),
  };
}

function plainFinished({ characteristics, chanceOfAll }: FinishedJudgement, draws: Draws) {
  return {
    chanceOfAll: plainOutcome(chanceOfAll, (chance) => ({ ...chance })),
    characteristics: characteristics.map(({ id, operation, stack }) => ({
      id,
      operation: operation ?? null,
      ...plainOutcome(stack, (each) => plainStack(each, draws)),
    })),
  };
}

/** What thousands of evaluations are compared by (see briefResults), of a part with several operations. */
export function briefOperations(title: string, operations: readonly SetupEvaluation[], finished: FinishedPart) {
  const brief = operations.map((evaluation) => ({ id: evaluation.setup.operation?.id ?? "", ...briefResults(evaluation) }));
  return {
    title,
    finished: { thisPart: briefFinished(finished.thisPart), batch: briefFinished(finished.batch) },
    operations: brief,
    problems: [...new Set(brief.flatMap(({ problems }) => problems))],
  };
}

function briefFinished({ characteristics, chanceOfAll }: FinishedJudgement) {
  return {
    chanceOfAll: chanceOfAll.ok ? chanceOfAll.value.chance : null,
    chances: Object.fromEntries(characteristics.flatMap(({ id, stack }) => (stack.ok ? [[id, stack.value.chance]] : []))),
    notKnown: characteristics.flatMap(({ stack }) => (stack.ok ? [] : stack.problems.map(describeProblem))),
  };
}
