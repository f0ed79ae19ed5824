import type { Problem } from "./base/outcome.ts";
import { type FinishedPart, finishedPart } from "./decision/finishedPart.ts";
import type { SetupEvaluation } from "./decision/setupEvaluation.ts";
import { type FreeCells, freeCellsOf, readLedger } from "./document/readLedger.ts";
import { readAllOperations } from "./document/readSetup.ts";
import type { SetupDocument } from "./document/setupDocument.ts";
import { drawsFor, evaluateRead } from "./evaluateSetup.ts";
import type { Draws } from "./uncertainty/draws.ts";

/** All operations of a document and the part that leaves the last of them. */
export interface OperationsEvaluation {
  /** In the order in which they follow each other. */
  readonly operations: readonly SetupEvaluation[];
  readonly finished: FinishedPart;
  /** Of the operations, each once. */
  readonly problems: readonly Problem[];
}

/**
 * Every operation of a document evaluated by itself (see evaluateSetup), and the drawing judged on the finished part. Undefined for a document with one
 * operation, whose part is finished when it leaves it.
 *
 * @param draws random draws to use again from an earlier evaluation with the same seed and number of trials
 */
export function evaluateOperations(document: SetupDocument, draws?: Draws, cells?: FreeCells): OperationsEvaluation | undefined {
  if (document.operations.length === 0) return undefined;
  const read = readAllOperations(document, cells ?? freeCellsOf(readLedger(document)));
  const evaluations: SetupEvaluation[] = [];
  let shared = draws;
  for (const { setup, problems } of read) {
    shared = drawsFor(setup, shared);
    evaluations.push(evaluateRead(setup, problems, shared));
  }
  const told = new Map(
    evaluations.flatMap(({ problems }) => problems.map((problem) => [`${problem.at}: ${problem.what}`, problem] as const)),
  );
  return {
    operations: evaluations,
    finished: finishedPart(evaluations, document.part.characteristics, shared as Draws),
    problems: [...told.values()],
  };
}
