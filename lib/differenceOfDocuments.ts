import { type DocumentChange, documentChanges } from "./document/documentChanges.ts";
import type { SetupDocument } from "./document/setupDocument.ts";
import { type DocumentEvaluation, evaluateSetup } from "./evaluateSetup.ts";
import { type Move, smallestShare } from "./record/evaluationChange.ts";
import { evaluationChanges } from "./record/evaluationChanges.ts";

/** How two documents differ, in words: sentences without a full stop, each with the place that it is about. */
export interface DocumentDifference {
  /** What was entered otherwise. */
  readonly entries: readonly PlacedSentence[];
  /** What that does: empty where no result differs in the digits that are reported. */
  readonly results: readonly PlacedSentence[];
}

/** A sentence about a change, with the place in the document that it is about. */
export interface PlacedSentence {
  readonly at: string;
  readonly sentence: string;
}

/**
 * The difference of two documents told in physics: which entries changed, and what that does to the results, by evaluating both. Where something
 * moved and several rows changed, every change is also evaluated alone, which tells whose work the move is.
 */
export function differenceOfDocuments(before: SetupDocument, after: SetupDocument): DocumentDifference {
  const { changes, followed } = documentChanges(before, after);
  const entries = changes.flatMap(({ at, sentences }) => sentences.map((sentence) => ({ at, sentence })));
  if (changes.length === 0) return { entries, results: [] };
  const [old, now] = [evaluateSetup(followed), evaluateSetup(after)];
  const results = evaluationChanges(old, now);
  const alone = results.some(({ move }) => move) ? evaluatedAlone(changes.filter(({ applied }) => applied !== followed)) : [];
  return {
    entries,
    results: results.map(({ at, sentence, move }) => ({ at, sentence: sentence + (move === undefined ? "" : causes(move, old, alone)) })),
  };
}

/** Evaluating a change alone costs an evaluation; more changes than this are not told apart. */
const mostAlone = 16;

/** The former setup with one change. */
interface Alone {
  readonly subject: string;
  readonly evaluation: DocumentEvaluation;
}

/** Nothing where one change is the whole difference, or there are too many. */
function evaluatedAlone(changes: readonly DocumentChange[]): Alone[] {
  if (changes.length < 2 || changes.length > mostAlone) return [];
  return changes.map(({ subject, applied }) => ({ subject, evaluation: evaluateSetup(applied) }));
}

/** Which of the changes moved a value; one that alone leaves it unknown says nothing about it. */
function causes({ by, valueIn, inWords }: Move, old: DocumentEvaluation, alone: readonly Alone[]): string {
  const from = valueIn(old);
  if (alone.length === 0 || from === undefined) return "";
  const parts = alone.flatMap(({ subject, evaluation }) => {
    const moved = (valueIn(evaluation) ?? from) - from;
    return Math.abs(moved) > smallestShare * Math.abs(by) ? [{ subject, moved }] : [];
  });
  if (parts.length === 0) return "; no one change does it alone";
  const told = parts.sort((a, b) => Math.abs(b.moved) - Math.abs(a.moved)).map(({ subject, moved }) => `${inWords(moved)} from ${subject}`);
  const rest = by - parts.reduce((sum, { moved }) => sum + moved, 0);
  const together = Math.abs(rest) > smallestShare * Math.abs(by) ? [`${inWords(rest)} from their working together`] : [];
  return `; alone: ${[...told, ...together].join(", ")}`;
}
