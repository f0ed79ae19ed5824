import { failure, type Outcome, success } from "../base/outcome.ts";
import { checkRule, type DecisionRule, type Guard } from "../part/decisionRule.ts";
import type { Distribution } from "../uncertainty/distribution.ts";
import { checkLimits, type Interval } from "./conformance.ts";
import { conformingValues } from "./internals/conformingValues.ts";

/** What a decision rule makes of limits, in the unit of the quantity. */
export interface DecisionLimits {
  /** Measured values that are accepted: the acceptance interval (JCGM 106:2012, 3.3.9). */
  readonly accepted: Interval;
  /** Measured values that are not rejected: outside of these a value is. Differs from `accepted` only where both have to be proven. */
  readonly notRejected: Interval;
  /** How far each acceptance limit lies inside its limit, negative outside of it (JCGM 106:2012, 3.3.11); 0 where there is no limit. */
  readonly guardBands: { readonly lower: number; readonly upper: number };
}

/**
 * Acceptance limits and guard bands of a decision rule, for a measurement whose error is distributed alike wherever the measured value lies.
 *
 * Guard bands from a probability are solved on the distribution itself, whatever its shape, and with both limits at once. They never
 * reverse: guarded acceptance accepts nothing that measures outside the limits, guarded rejection rejects nothing that measures inside.
 *
 * @param knowledge of the true value for one measured value, its mean being that value; only its shape counts
 * @param limits where one is infinite there is none on that side
 * @returns a problem if the guard bands leave no acceptance interval
 * @throws RangeError for limits or a guard out of their range
 */
export function decisionLimits(rule: DecisionRule, knowledge: Distribution, limits: Interval): Outcome<DecisionLimits> {
  checkLimits(limits);
  checkRule(rule);
  if (rule.name === "simple acceptance") return success(decided(limits, limits, limits));
  if (rule.name === "guarded rejection") {
    const wide = widened(rule.guard, knowledge, limits);
    return wide.ok ? success(decided(limits, wide.value, wide.value)) : wide;
  }
  const narrow = narrowed(rule.guard, knowledge, limits);
  if (!narrow.ok) return narrow;
  if (rule.name === "guarded acceptance") return success(decided(limits, narrow.value, narrow.value));
  const wide = widened(rule.guard, knowledge, limits);
  return wide.ok ? success(decided(limits, narrow.value, wide.value)) : wide;
}

function decided(limits: Interval, accepted: Interval, notRejected: Interval): DecisionLimits {
  const band = (limit: number, inside: number) => (Number.isFinite(limit) ? inside : 0);
  return {
    accepted,
    notRejected,
    guardBands: { lower: band(limits.lower, accepted.lower - limits.lower), upper: band(limits.upper, limits.upper - accepted.upper) },
  };
}

/** The acceptance interval of guarded acceptance. */
function narrowed(guard: Guard, knowledge: Distribution, limits: Interval): Outcome<Interval> {
  const inner =
    guard.by === "probability" ? conformingValues(knowledge, limits, guard.probability) : success(moved(limits, widthOf(guard)));
  if (!inner.ok) return inner;
  const lower = Math.max(limits.lower, inner.value?.lower ?? Number.POSITIVE_INFINITY);
  const upper = Math.min(limits.upper, inner.value?.upper ?? Number.NEGATIVE_INFINITY);
  if (lower <= upper) return success({ lower, upper });
  return failure({
    at: "",
    what: "the guard bands leave nothing between the limits that could be accepted",
    expected: "an uncertainty that is small against the tolerance",
    got: `a standard uncertainty of ${short(knowledge.standardDeviation)} within limits ${short(limits.upper - limits.lower)} apart`,
    remedy: "measure more closely, or agree on another decision rule",
  });
}

/** The acceptance interval of guarded rejection. */
function widened(guard: Guard, knowledge: Distribution, limits: Interval): Outcome<Interval> {
  if (guard.by === "expanded uncertainty") return success(moved(limits, -widthOf(guard)));
  const outer = conformingValues(knowledge, limits, 1 - guard.probability);
  if (!outer.ok) return outer;
  return success({
    lower: Math.min(limits.lower, outer.value?.lower ?? limits.lower),
    upper: Math.max(limits.upper, outer.value?.upper ?? limits.upper),
  });
}

function widthOf({ multiple, expandedUncertainty }: Extract<Guard, { by: "expanded uncertainty" }>): number {
  return multiple * expandedUncertainty;
}

function moved({ lower, upper }: Interval, inwards: number): Interval {
  return { lower: lower + inwards, upper: upper - inwards };
}

/** For a sentence: four digits say enough. */
function short(value: number): string {
  return String(Number(value.toPrecision(4)));
}
