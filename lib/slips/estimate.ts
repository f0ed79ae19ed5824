import type { Budget } from "../uncertainty/budget.ts";
import { effectiveDegreesOfFreedom } from "../uncertainty/effectiveDegreesOfFreedom.ts";
import { studentUpperTail } from "../uncertainty/special/studentT.ts";

/** A compared quantity, mm or radians: what was found less what was expected. */
export interface Estimate {
  readonly value: number;
  readonly standardUncertainty: number;
  /** Above 0; `Infinity` where the standard uncertainty is well known. */
  readonly degreesOfFreedom: number;
}

/** A quantity with what its budget says of its doubt (JCGM 100:2008, G.4.1). */
export function estimateOf({ value, standardUncertainty, contributions }: Budget): Estimate {
  const degreesOfFreedom = effectiveDegreesOfFreedom(
    contributions.map(({ amount, source: { degreesOfFreedom, varianceEstimate } }) => ({
      contribution: amount,
      degreesOfFreedom,
      varianceEstimate,
    })),
  );
  return { value, standardUncertainty, degreesOfFreedom };
}

/**
 * Chance that doubt alone makes a quantity at least this far from 0, to either side: Student's t (JCGM 100:2008, G.3). Without any doubt it is 0, or 1 for
 * a value of exactly 0.
 */
export function chanceByDoubt({ value, standardUncertainty, degreesOfFreedom }: Estimate): number {
  if (standardUncertainty === 0) return value === 0 ? 1 : 0;
  return 2 * studentUpperTail(Math.abs(value) / standardUncertainty, degreesOfFreedom);
}

/** Whether it is farther from 0 than doubt explains, when that is asked `times` times and all of them together may err with this chance (Bonferroni). */
export function isBeyondDoubt(estimate: Estimate, errorChance: number, times: number): boolean {
  return chanceByDoubt(estimate) * times < errorChance;
}
