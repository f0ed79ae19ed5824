import type { BeyondFirstOrder } from "../studyResults.ts";
import { plainNumber } from "./plainNumber.ts";

/** First order beside the whole model as plain data, in the unit of the result; null where that is not known or makes no sense. */
export function plainFirstOrder({ check, isTooCurved }: Pick<BeyondFirstOrder, "check" | "isTooCurved">) {
  if (check === undefined || isTooCurved) return null;
  return {
    verdict: check.verdict,
    interval: check.firstOrder,
    differences: check.differences,
    tolerance: check.tolerance,
    doubt: plainNumber(check.doubt),
  };
}
