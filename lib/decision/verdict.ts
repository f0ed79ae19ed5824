import type { DecisionLimits } from "./decisionLimits.ts";

/** What a decision rule says of a measured value; `neither` where the rule wants either to be proven and neither is. */
export type Verdict = "accepted" | "rejected" | "neither";

/**
 * The verdict on one measured value; a value exactly at an acceptance limit is accepted.
 *
 * @throws RangeError if the value is not finite
 */
export function verdict(measured: number, { accepted, notRejected }: DecisionLimits): Verdict {
  if (!Number.isFinite(measured)) throw new RangeError(`measured: expected a finite number, got ${measured}`);
  if (measured >= accepted.lower && measured <= accepted.upper) return "accepted";
  return measured < notRejected.lower || measured > notRejected.upper ? "rejected" : "neither";
}
