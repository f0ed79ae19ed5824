import type { OwnEvaluation, SetupEvaluation } from "../decision/setupEvaluation.ts";

/** A setup, and what a person has added to it. */
export type ComparedEvaluation = SetupEvaluation & OwnEvaluation;

/** One result that differs, in words, without a full stop. */
export interface EvaluationChange {
  /** The place of what the result belongs to, as problems have it. */
  readonly at: string;
  readonly sentence: string;
  /** Of a value that moved, so that it can be told which of several changes moved it. */
  readonly move?: Move;
}

/** A value that moved, in its base unit. */
export interface Move {
  readonly by: number;
  /** The value in another evaluation; undefined where it has none there. */
  valueIn(evaluation: ComparedEvaluation): number | undefined;
  /** A part of the move, with its sign and unit. */
  inWords(part: number): string;
}

/** A part of a move smaller than this share of it is not worth a word. */
export const smallestShare = 0.02;
