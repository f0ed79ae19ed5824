import { type BlockLoops, plainLoops } from "../internals/blockLoops.ts";
import { wordsFrom } from "../trials/blockWords.ts";
import type { WordValues } from "../trials/quantileTable.ts";
import { type ColumnSurvey, cellsOfColumn, surveyColumn } from "./columnSurvey.ts";

/**
 * What turns random words into values and values into results, column by column, and the memory in which the columns stand. Whichever does it,
 * the bits are the same.
 */
export interface BlockKernels {
  readonly loops: BlockLoops;
  /** Room for so many numbers, all 0. */
  numbers(length: number): Float64Array;
  words(length: number): Uint32Array;
  /** The words that follow from the starts that stand at the beginning of `starts`. */
  fillWords(starts: Uint32Array, words: Uint32Array): void;
  /** shift + scale · (the value of the word), for each word. */
  fillValues(values: WordValues, words: Uint32Array, into: Float64Array, scale: number, shift: number): void;
  /** What is known of a column, `ColumnSurvey`, for z = (value - centre) · perScale. */
  survey(column: Float64Array, centre: number, perScale: number): ColumnSurvey;
  /** The whole numbers below middle + (value - centre) · perUnit, which are all between 0 and 2^31. Written over by the next call. */
  cells(column: Float64Array, middle: number, centre: number, perUnit: number): Int32Array;
}

/** Loops of this language, which any engine runs. */
export const plainKernels: BlockKernels = {
  loops: plainLoops,
  numbers: (length) => new Float64Array(length),
  words: (length) => new Uint32Array(length),
  fillWords: wordsFrom,
  fillValues: (values, words, into, scale, shift) => values.fill(words, into, scale, shift),
  survey: surveyColumn,
  cells: cellsOfColumn,
};
