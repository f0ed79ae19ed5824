import { coverageProbability } from "./expandedUncertainty.ts";
import { plainNumber } from "./internals/plainNumber.ts";
import type { StudyResult } from "./studyResults.ts";

/** What was studied. */
export interface StudyHead {
  readonly title: string;
  readonly strategy: string;
  readonly view: "thisPart" | "batch";
  readonly seed: number;
  readonly trials: number;
}

/** A study as plain data, ready for JSON: millimetres and radians. */
export function plainStudy(head: StudyHead, results: readonly StudyResult[]) {
  return {
    format: "datumbook study" as const,
    version: 1,
    ...head,
    coverageProbability,
    results: results.map(({ name, unit, distribution, symmetric, shortest, within, check, nonlinearity, trials }) => ({
      name,
      unit,
      method: distribution.method,
      mean: distribution.mean,
      standardDeviation: distribution.standardDeviation,
      symmetricInterval: symmetric,
      shortestInterval: shortest,
      within: within ?? null,
      firstOrder:
        check === undefined
          ? null
          : {
              verdict: check.verdict,
              interval: check.firstOrder,
              differences: check.differences,
              tolerance: check.tolerance,
              doubt: plainNumber(check.doubt),
            },
      nonlinearity: { size: plainNumber(nonlinearity.size), doubt: plainNumber(nonlinearity.doubt) },
      trials: trials === undefined ? null : { ...trials, failedShare: trials.failed / (trials.count + trials.failed) },
    })),
  };
}
