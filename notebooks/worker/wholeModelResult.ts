import type { StudyTarget } from "../../lib/decision/studyTargets.ts";
import type { StudyResult } from "../../lib/record/studyResults.ts";
import { densityCurve } from "../figures/stack/densityCurve.ts";
import { drawnRange } from "./drawnRange.ts";
import type { WholeModelResult } from "./studyMessages.ts";

/** A result of a study as plain data, with its density on what is drawn of the axis. */
export function wholeModelResult({ distribution, ...plain }: StudyResult, { linear }: StudyTarget): WholeModelResult {
  return { ...plain, curve: plain.trials === undefined ? densityCurve(distribution, ...drawnRange(linear)) : [] };
}
