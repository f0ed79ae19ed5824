import type { StudyTarget } from "../../lib/decision/studyTargets.ts";
import type { StudyResult } from "../../lib/record/studyResults.ts";
import { densityCurve } from "../figures/stack/densityCurve.ts";
import { drawnRange } from "./drawnRange.ts";
import type { WholeModelResult } from "./studyMessages.ts";

/** A correction that moves an end of the interval by more than this, in standard deviations, is no small one: its expansion ends at second order. */
const tooCurved = 0.1;

/** A result of a study as plain data, with its density on what is drawn of the axis. */
export function wholeModelResult({ distribution, ...plain }: StudyResult, { linear }: StudyTarget): WholeModelResult {
  const isCorrected = plain.trials === undefined;
  return {
    ...plain,
    isTooCurved: isCorrected && !(plain.nonlinearity.size <= tooCurved),
    curve: isCorrected ? densityCurve(distribution, ...drawnRange(linear)) : [],
  };
}
