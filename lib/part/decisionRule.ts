/**
 * How a measured value is judged (JCGM 106:2012, clause 8; ISO 14253-1:2017).
 *
 * - simple acceptance: what measures within the limits is accepted, everything else rejected; both sides share the risk (8.2)
 * - guarded acceptance: accepted only where a guard band inside the limits is kept as well, otherwise rejected (8.3.2)
 * - guarded rejection: rejected only beyond a guard band outside the limits, otherwise accepted (8.3.3)
 * - proof either way: accepted as under guarded acceptance, rejected as under guarded rejection, between them neither is proven
 */
export type DecisionRule =
  | { readonly name: "simple acceptance" }
  | { readonly name: Exclude<(typeof decisionRuleNames)[number], "simple acceptance">; readonly guard: Guard };

export const decisionRuleNames = ["simple acceptance", "guarded acceptance", "guarded rejection", "proof either way"] as const;

/** What a guard band is made from. */
export type Guard =
  /**
   * Its width is `multiple` · `expandedUncertainty` (JCGM 106:2012, 8.3.2.3, w = r U); both finite and at least 0. Where none is given, U is twice
   * the standard uncertainty of what is judged.
   */
  | { readonly by: "expanded uncertainty"; readonly multiple: number; readonly expandedUncertainty?: number | undefined }
  /**
   * As narrow as it may be for what is accepted to conform, or what is rejected not to conform, with at least this chance: from 0.5
   * (included) to 1 (excluded). One less it is the largest specific risk.
   */
  | { readonly by: "probability"; readonly probability: number };

/** Of a guard band, where nothing else is stated: that of ISO 14253-1:2017. */
export const usualProbability = 0.95;

/**
 * The rule that holds where nothing else is agreed: ISO 14253-1:2017, conformity and nonconformity are both to be proven, with 95 %
 * (value from memory, recomputed). For a normal distribution and one limit its guard band is 1.645 standard uncertainties, which the
 * standard rounds up.
 */
export const iso14253Default: DecisionRule = { name: "proof either way", guard: { by: "probability", probability: usualProbability } };

/** @throws RangeError for a guard out of its range */
export function checkRule(rule: DecisionRule): void {
  if (rule.name === "simple acceptance") return;
  const { guard } = rule;
  if (guard.by === "probability") {
    if (!(guard.probability >= 0.5 && guard.probability < 1))
      throw new RangeError(`guard.probability: expected at least 0.5 and below 1, got ${guard.probability}`);
    return;
  }
  for (const key of ["multiple", "expandedUncertainty"] as const) {
    const { [key]: value = 0 } = guard;
    if (!(value >= 0 && value < Number.POSITIVE_INFINITY)) throw new RangeError(`guard.${key}: expected finite and >= 0, got ${value}`);
  }
}

/** Width of a guard band by a multiple of U, in the unit of the standard uncertainty. */
export function guardWidth(
  { multiple, expandedUncertainty }: Extract<Guard, { by: "expanded uncertainty" }>,
  standardUncertainty: number,
): number {
  return multiple * (expandedUncertainty ?? usualCoverageFactor * standardUncertainty);
}

/** Of the expanded uncertainty that guard bands are made from (JCGM 106:2012, 8.3.2.3, note). */
const usualCoverageFactor = 2;
