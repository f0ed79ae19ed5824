import { keepsTolerance, numericalTolerance } from "./numericalTolerance.ts";

/** How the first-order coverage interval stands beside that of the whole model. */
export interface FirstOrderCheck {
  readonly firstOrder: readonly [lower: number, upper: number];
  readonly wholeModel: readonly [lower: number, upper: number];
  /** By how much the lower and the upper ends differ, in the unit of the result. */
  readonly differences: readonly [lower: number, upper: number];
  /** δ: what may differ. */
  readonly tolerance: number;
  /** What each end of the interval of the whole model may be off for numerical reasons. */
  readonly doubt: number;
  readonly verdict: "holds" | "does not hold" | "not known";
}

/**
 * Validation of the first-order result (JCGM 101:2008, clause 8): y ± U holds where both of its ends differ from those of the probabilistically
 * symmetric interval of the whole model by no more than the numerical tolerance of u.
 *
 * Where the ends of the latter are themselves not known well enough to say, the verdict is `not known`.
 *
 * @param firstOrder estimate, standard uncertainty above 0 and expanded uncertainty
 * @param wholeModel ends of the probabilistically symmetric interval of the same probability, found by trials or corrected by them
 * @param doubt what each of these ends may be off for numerical reasons, in the unit of the result
 * @param digits significant digits of u that count
 */
export function validateFirstOrder(
  { value, standardUncertainty, expandedUncertainty }: FirstOrderResult,
  wholeModel: readonly [lower: number, upper: number],
  doubt: number,
  digits: number,
): FirstOrderCheck {
  const firstOrder = [value - expandedUncertainty, value + expandedUncertainty] as const;
  const differences = [Math.abs(firstOrder[0] - wholeModel[0]), Math.abs(firstOrder[1] - wholeModel[1])] as const;
  const tolerance = numericalTolerance(standardUncertainty, digits);
  const keeps = keepsTolerance(Math.max(...differences), doubt, tolerance);
  const verdict = keeps === undefined ? "not known" : keeps ? "holds" : "does not hold";
  return { firstOrder, wholeModel, differences, tolerance, doubt, verdict };
}

interface FirstOrderResult {
  readonly value: number;
  readonly standardUncertainty: number;
  readonly expandedUncertainty: number;
}
