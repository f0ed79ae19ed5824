import { once } from "../base/once.ts";
import { failure, type Outcome, success, within } from "../base/outcome.ts";
import type { DecisionRule } from "../part/decisionRule.ts";
import type { Stack } from "../tolerance/stack.ts";
import { type DecisionLimits, decisionLimits, roundDecisionLimits } from "./decisionLimits.ts";
import { type Verdict, verdict } from "./verdict.ts";

/** What the decision rule says of one characteristic of this part. */
export interface CharacteristicVerdict {
  readonly verdict: Verdict;
  /** Chance that it is within its tolerance. */
  readonly conformanceProbability: number;
  /** Acceptance limits and guard bands, mm, of the deviation; of a round zone as diameters, off in the direction in which it is. A problem where nothing is left to accept. */
  readonly limits: Outcome<DecisionLimits>;
}

/**
 * Judges a characteristic of this part by its deviation at the best estimates and by what is known of it.
 *
 * In a round zone the guard band holds for the direction in which the point is off (`roundDecisionLimits`).
 *
 * At maximum material, what is accepted by the stated zone is accepted at any size within its limits; nothing else is decided before there is a size.
 *
 * @param stated the rule, or why it could not be read
 * @returns a problem where the rule is not known, leaves nothing that could be accepted, or where a bonus decides that is not known
 */
export function judgeCharacteristic(stack: Stack, stated: Outcome<DecisionRule>): Outcome<CharacteristicVerdict> {
  const found = judgeAsStated(stack, stated);
  if (!found.ok || stack.bonus === undefined || found.value.verdict === "accepted") return found;
  return failure({
    at: `part.characteristics.${stack.row}`,
    what: "it is not accepted without the bonus of maximum material, and the bonus is not known before its size is measured",
    remedy: "see the chance with the bonus of its own size",
  });
}

/** By the zone as it is stated. */
function judgeAsStated(stack: Stack, stated: Outcome<DecisionRule>): Outcome<CharacteristicVerdict> {
  if (!stated.ok) return stated;
  const rule = stated.value;
  const { row, along, chance, deviation, distribution } = stack;
  const at = `part.characteristics.${row}`;
  const placed = (found: Outcome<DecisionLimits>) =>
    found.ok ? found : failure<DecisionLimits>(...found.problems.map((problem) => within(at, problem)));
  if (along !== undefined && rule.name !== "simple acceptance" && rule.guard.by === "probability") {
    const reached = verdictByChance(stack, rule.name, rule.guard.probability);
    const limits = once(() => placed(roundDecisionLimits(rule, along, stack.limits.upper)));
    return success({
      verdict: reached,
      conformanceProbability: chance,
      get limits() {
        return limits();
      },
    });
  }
  const found = placed(
    along === undefined ? decisionLimits(rule, distribution, stack.limits) : roundDecisionLimits(rule, along, stack.limits.upper),
  );
  return found.ok ? success({ verdict: verdict(deviation, found.value), conformanceProbability: chance, limits: found }) : found;
}

/** The same as by the acceptance limits, which take longer to find (JCGM 106:2012, 8.3.2.1). */
function verdictByChance(
  { chance, deviation, limits }: Stack,
  name: Exclude<DecisionRule["name"], "simple acceptance">,
  probability: number,
): Verdict {
  const inside = deviation <= limits.upper;
  const proven = inside && chance >= probability;
  const disproven = !inside && 1 - chance >= probability;
  switch (name) {
    case "guarded acceptance":
      return proven ? "accepted" : "rejected";
    case "guarded rejection":
      return disproven ? "rejected" : "accepted";
    case "proof either way":
      return proven ? "accepted" : disproven ? "rejected" : "neither";
  }
}
