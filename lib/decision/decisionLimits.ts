import { failure, type Outcome, type Problem, success } from "../base/outcome.ts";
import { checkRule, type DecisionRule, type Guard, guardWidth } from "../part/decisionRule.ts";
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
    guard.by === "probability"
      ? conformingValues(knowledge, limits, guard.probability)
      : success(moved(limits, guardWidth(guard, knowledge.standardDeviation)));
  if (!inner.ok) return inner;
  const lower = Math.max(limits.lower, inner.value?.lower ?? Number.POSITIVE_INFINITY);
  const upper = Math.min(limits.upper, inner.value?.upper ?? Number.NEGATIVE_INFINITY);
  return lower <= upper ? success({ lower, upper }) : failure(nothingAccepted(knowledge.standardDeviation, limits.upper - limits.lower));
}

/** @param width of the tolerance */
function nothingAccepted(standardUncertainty: number, width: number): Problem {
  return {
    at: "",
    what: "the guard bands leave nothing between the limits that could be accepted",
    expected: "an uncertainty that is small against the tolerance",
    got: `a standard uncertainty of ${short(standardUncertainty)} within limits ${short(width)} apart`,
    remedy: "measure more closely, or agree on another decision rule",
  };
}

/** The acceptance interval of guarded rejection. */
function widened(guard: Guard, knowledge: Distribution, limits: Interval): Outcome<Interval> {
  if (guard.by === "expanded uncertainty") return success(moved(limits, -guardWidth(guard, knowledge.standardDeviation)));
  const outer = conformingValues(knowledge, limits, 1 - guard.probability);
  if (!outer.ok) return outer;
  return success({
    lower: Math.min(limits.lower, outer.value?.lower ?? limits.lower),
    upper: Math.max(limits.upper, outer.value?.upper ?? limits.upper),
  });
}

/** What is known of a point in a round zone, as guard bands need it; everything as diameters. */
export interface RoundKnowledge {
  /** Chance of being within the zone if the diameter used were this, off in the same direction. Falls as it grows, from 0.5 on. */
  readonly chanceIfOff: (diameter: number) => number;
  /** Of the diameter, along that direction. */
  readonly standardUncertainty: number;
}

/**
 * The same for the diameter used of a round zone, whose knowledge moves along the direction in which the point is off: the guard band holds for
 * that direction, since how a diameter is distributed depends on where the point lies.
 *
 * @param zone diameter, above 0
 */
export function roundDecisionLimits(rule: DecisionRule, knowledge: RoundKnowledge, zone: number): Outcome<DecisionLimits> {
  checkRule(rule);
  const limits = { lower: Number.NEGATIVE_INFINITY, upper: zone };
  const upTo = (upper: number): Interval => ({ ...limits, upper });
  if (rule.name === "simple acceptance") return success(decided(limits, limits, limits));
  const { guard } = rule;
  const width = guard.by === "expanded uncertainty" ? guardWidth(guard, knowledge.standardUncertainty) : undefined;
  const wide = () =>
    upTo(
      guard.by === "probability"
        ? (diameterOfChance(knowledge, 1 - guard.probability, zone, Number.POSITIVE_INFINITY) ?? zone)
        : zone + (width as number),
    );
  if (rule.name === "guarded rejection") {
    const outer = wide();
    return success(decided(limits, outer, outer));
  }
  const inner = guard.by === "probability" ? diameterOfChance(knowledge, guard.probability, 0, zone) : zone - (width as number);
  if (inner === undefined || inner < 0) return failure(nothingAccepted(knowledge.standardUncertainty, zone));
  return success(decided(limits, upTo(inner), rule.name === "guarded acceptance" ? upTo(inner) : wide()));
}

/**
 * The largest diameter with at least this chance, from `low` to `high`, or on to where the chance has fallen; undefined where not even `low` has it.
 */
function diameterOfChance(
  { chanceIfOff, standardUncertainty }: RoundKnowledge,
  chance: number,
  low: number,
  high: number,
): number | undefined {
  const excess = (diameter: number) => chanceIfOff(diameter) - chance;
  let [inside, outside] = [low, standardUncertainty > 0 ? Math.min(high, low + standardUncertainty) : high];
  let atInside = excess(inside);
  if (atInside < 0) return undefined;
  // Known exactly, it conforms up to the limit, and no farther.
  if (outside === Number.POSITIVE_INFINITY) return low;
  let atOutside = excess(outside);
  while (atOutside >= 0) {
    if (outside === high) return outside;
    [inside, atInside] = [outside, atOutside];
    outside = Math.min(high, low + 2 * (outside - low));
    atOutside = excess(outside);
  }
  // Regula falsi with the step of Illinois: the end that stays counts half the next time.
  for (let step = 0; step < mostSteps && outside - inside > closeEnough * standardUncertainty; step++) {
    const middle = inside + ((outside - inside) * atInside) / (atInside - atOutside);
    const at = excess(middle);
    if (Math.abs(at) <= chanceError) return middle;
    if (at >= 0) {
      [inside, atInside] = [middle, at];
      atOutside /= 2;
    } else {
      [outside, atOutside] = [middle, at];
      atInside /= 2;
    }
  }
  return inside;
}

/** Of the chance of a round zone (see radialChance). */
const chanceError = 1e-9;
/** Of a standard uncertainty. */
const closeEnough = 1e-9;
const mostSteps = 200;

function moved({ lower, upper }: Interval, inwards: number): Interval {
  return { lower: lower + inwards, upper: upper - inwards };
}

/** For a sentence: four digits say enough. */
function short(value: number): string {
  return String(Number(value.toPrecision(4)));
}
