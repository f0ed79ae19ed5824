import { coverageProbability } from "./expandedUncertainty.ts";
import { plainFirstOrder } from "./internals/plainFirstOrder.ts";
import { plainNumber } from "./internals/plainNumber.ts";
import { plainSecondOrder } from "./internals/plainSecondOrder.ts";
import type { StudyResult } from "./studyResults.ts";

/** What was studied. */
export interface StudyHead {
  readonly title: string;
  readonly strategy: string;
  readonly view: "thisPart" | "batch";
  readonly seed: number;
  readonly trials: number;
  /** Of trials that were to go on until they are steady; null for others. */
  readonly isSteady: boolean | null;
  /** What is supposed for the moment, in words: all of it rests on that. */
  readonly supposed: readonly string[];
}

/** A study as plain data, ready for JSON: millimetres and radians. */
export function plainStudy(head: StudyHead, results: readonly StudyResult[]) {
  return {
    format: "datumbook study" as const,
    version: 1,
    ...head,
    coverageProbability,
    results: results.map(
      ({ name, unit, distribution, symmetric, shortest, within, check, secondOrder, nonlinearity, trials, isTooCurved, failedShare }) => ({
        name,
        unit,
        method: distribution.method,
        isTooCurved,
        mean: isTooCurved ? null : distribution.mean,
        standardDeviation: isTooCurved ? null : distribution.standardDeviation,
        symmetricInterval: isTooCurved ? null : symmetric,
        shortestInterval: isTooCurved ? null : shortest,
        within: isTooCurved ? null : (within ?? null),
        firstOrder: plainFirstOrder({ check, isTooCurved }),
        secondOrder: secondOrder.map(plainSecondOrder),
        nonlinearity: { size: plainNumber(nonlinearity.size), doubt: plainNumber(nonlinearity.doubt) },
        trials: trials ?? null,
        failedShare,
      }),
    ),
  };
}
