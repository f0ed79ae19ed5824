import type { StudyTarget } from "../../lib/decision/studyTargets.ts";
import { expandedUncertainty } from "../../lib/record/expandedUncertainty.ts";
import { densityCurve } from "../figures/stack/densityCurve.ts";
import { drawnRange } from "./drawnRange.ts";
import type { FirstOrderResult } from "./studyMessages.ts";

/** A target as it stands to first order, as plain data. */
export function firstOrderResult({ name, unit, value, budgets, linear, limits }: StudyTarget): FirstOrderResult {
  const [budget, second] = budgets;
  const own = second === undefined ? budget : undefined;
  return {
    name,
    unit,
    value: value.value,
    standardUncertainty: own?.standardUncertainty,
    expanded: own && expandedUncertainty(own),
    limits,
    within: limits && { chance: linear.chanceWithin(limits.lower, limits.upper), doubt: linear.error },
    curve: densityCurve(linear, ...drawnRange(linear)),
  };
}
