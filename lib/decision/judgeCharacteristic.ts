import { failure, type Outcome, type Problem, success, within } from "../base/outcome.ts";
import type { DecisionRule } from "../part/decisionRule.ts";
import type { Stack } from "../tolerance/stack.ts";
import { type DecisionLimits, decisionLimits } from "./decisionLimits.ts";
import { type Verdict, verdict } from "./verdict.ts";

/** What the decision rule says of one characteristic of this part. */
export interface CharacteristicVerdict {
  readonly verdict: Verdict;
  /** Chance that it is within its tolerance. */
  readonly conformanceProbability: number;
  /** Acceptance limits and guard bands, mm, of the deviation; a problem for a round zone under a rule with guard bands. */
  readonly limits: Outcome<DecisionLimits>;
}

/**
 * Judges a characteristic of this part by its deviation at the best estimates and by what is known of it.
 *
 * How the diameter that is used of a round zone is distributed depends on how far it is off, so no one guard band holds for it; its verdict
 * rests on its conformance probability alone, which is the same rule (JCGM 106:2012, 8.3.2.1).
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
  const { row, isRound, chance, deviation, limits } = stack;
  const at = `part.characteristics.${row}`;
  if (isRound && rule.name !== "simple acceptance") {
    const reached = verdictInRoundZone(stack, rule);
    return success({ verdict: reached, conformanceProbability: chance, limits: failure({ ...noGuardBand, at }) });
  }
  const found = decisionLimits(rule, stack.distribution, isRound ? { lower: Number.NEGATIVE_INFINITY, upper: limits.upper } : limits);
  if (!found.ok) return failure(...found.problems.map((problem) => within(at, problem)));
  return success({ verdict: verdict(deviation, found.value), conformanceProbability: chance, limits: found });
}

const noGuardBand: Omit<Problem, "at"> = {
  what: "a round zone has no guard band of its own, because what is known of the diameter depends on how far it is off",
  remedy: "see its conformance probability",
};

function verdictInRoundZone(
  { chance, deviation, limits }: Stack,
  { name, guard }: Exclude<DecisionRule, { name: "simple acceptance" }>,
): Verdict {
  if (guard.by !== "probability") throw new Error("judgeCharacteristic: expected a guard by probability, since a document states no other");
  const inside = deviation <= limits.upper;
  const proven = inside && chance >= guard.probability;
  const disproven = !inside && 1 - chance >= guard.probability;
  switch (name) {
    case "guarded acceptance":
      return proven ? "accepted" : "rejected";
    case "guarded rejection":
      return disproven ? "rejected" : "accepted";
    case "proof either way":
      return proven ? "accepted" : disproven ? "rejected" : "neither";
  }
}
