import { millimetresPerInch } from "./base/quantity.ts";
import { type DocumentChange, documentChanges } from "./document/documentChanges.ts";
import type { SetupDocument } from "./document/setupDocument.ts";
import { evaluateSetup, type SetupEvaluation } from "./evaluateSetup.ts";
import { type EvaluationChange, evaluationChanges } from "./record/evaluationChanges.ts";
import { strategyInUse } from "./record/strategyInUse.ts";
import { formatFixed } from "./uncertainty/roundForReport.ts";

/** How two documents differ, in words: sentences without a full stop, each with the place that it is about. */
export interface DocumentDifference {
  /** What was entered otherwise. */
  readonly entries: readonly PlacedSentence[];
  /** What that does: empty where no result differs in the digits that are reported. */
  readonly results: readonly PlacedSentence[];
}

export interface PlacedSentence {
  readonly at: string;
  readonly sentence: string;
}

/**
 * The difference of two documents told in physics: which entries changed, and what that does to the results, by evaluating both. Where the zero
 * moved and several rows changed, every change is also evaluated alone, which tells whose work the move is.
 */
export function differenceOfDocuments(before: SetupDocument, after: SetupDocument): DocumentDifference {
  const changes = documentChanges(before, after);
  const entries = changes.flatMap(({ at, sentences }) => sentences.map((sentence) => ({ at, sentence })));
  if (changes.length === 0) return { entries, results: [] };
  const [old, now] = [evaluateSetup(before), evaluateSetup(after)];
  const results = evaluationChanges(old, now);
  const alone = results.some(({ zero }) => zero) ? movesAlone(changes, old) : undefined;
  return {
    entries,
    results: results.map((change) => ({ at: change.at, sentence: change.sentence + causes(change, changes, alone, after.unit) })),
  };
}

/** Evaluating a change alone costs an evaluation; more changes than this are not told apart. */
const mostAlone = 16;
/** A part of a move smaller than this share of it is not worth a word. */
const smallestShare = 0.02;

/** By change, how far each axis of the zero moves by it alone, mm; undefined where one change is the whole difference, or there are too many. */
function movesAlone(changes: readonly DocumentChange[], old: SetupEvaluation): (readonly number[])[] | undefined {
  if (changes.length < 2 || changes.length > mostAlone) return undefined;
  const from = zeroOf(old);
  return changes.map(({ applied }) => zeroOf(evaluateSetup(applied)).map((value, axis) => value - (from[axis] as number)));
}

/** NaN where an axis is not known: such a change alone says nothing about it. */
function zeroOf(evaluation: SetupEvaluation): number[] {
  const zero = strategyInUse(evaluation)?.evaluation.zero;
  return [0, 1, 2].map((axis) => (zero?.[axis]?.ok ? zero[axis].value.value : Number.NaN));
}

function causes(
  { zero }: EvaluationChange,
  changes: readonly DocumentChange[],
  alone: (readonly number[])[] | undefined,
  unit: "mm" | "inch",
): string {
  if (zero === undefined || alone === undefined) return "";
  const parts = changes.flatMap(({ subject }, i) => {
    const moved = alone[i]?.[zero.axis] as number;
    return Number.isFinite(moved) && Math.abs(moved) > smallestShare * Math.abs(zero.moved) ? [{ subject, moved }] : [];
  });
  if (parts.length === 0) return "; no one change does it alone";
  const told = parts
    .sort((a, b) => Math.abs(b.moved) - Math.abs(a.moved))
    .map(({ subject, moved }) => `${lengthText(moved, unit)} from ${subject}`);
  const rest = zero.moved - parts.reduce((sum, { moved }) => sum + moved, 0);
  const together = Math.abs(rest) > smallestShare * Math.abs(zero.moved) ? [`${lengthText(rest, unit)} from their working together`] : [];
  return `; alone: ${[...told, ...together].join(", ")}`;
}

function lengthText(millimetres: number, unit: "mm" | "inch"): string {
  const text = unit === "inch" ? `${formatFixed(millimetres / millimetresPerInch, 5)} in` : `${formatFixed(millimetres, 4)} mm`;
  return text.startsWith("-") ? text : `+${text}`;
}
