import { failure, type Outcome, success } from "../base/outcome.ts";
import type { DecisionRule } from "../part/decisionRule.ts";
import type { Stack } from "../tolerance/stack.ts";
import { linearDistribution } from "../uncertainty/linearDistribution.ts";
import { normalDiscChance } from "../uncertainty/normalDiscChance.ts";
import { type DecisionLimits, decisionLimits, roundDecisionLimits } from "./decisionLimits.ts";
import { type GlobalRisk, globalRisk, roundGlobalRisk } from "./globalRisk.ts";

/** What becomes of a characteristic of the parts of a batch that are measured one by one and judged by a rule. */
export interface InspectionRisk {
  /** Of the measured deviation; of the diameter used in a round zone. */
  readonly limits: DecisionLimits;
  readonly global: GlobalRisk;
  /** The largest chance that one accepted part does not conform: of one that measures at the acceptance limit (JCGM 106:2012, 3.3.13). */
  readonly largestSpecificConsumersRisk: number;
}

/**
 * Risks of inspecting a characteristic in the batch: the parts come as the stack foresees them, and each is measured with a normal error
 * (JCGM 106:2012, clause 9). In a round zone both coordinates are measured, independently and equally well. What is neither accepted nor rejected by a rule that wants
 * proof is not accepted.
 *
 * @param stack of the batch
 * @param standardUncertainty of the measuring, above 0, in the unit of the stack; of one coordinate in a round zone
 * @returns a problem where the rule leaves nothing to accept, and at maximum material, where what conforms depends on each part's own size
 */
export function inspectionRisk(stack: Stack, rule: DecisionRule, standardUncertainty: number): Outcome<InspectionRisk> {
  if (stack.bonus !== undefined)
    return failure({
      at: "",
      what: "at maximum material each part has a zone of its own, by its size, and the risks of inspecting that are not worked out",
      remedy: "see the chance with the bonus of its own size",
    });
  return stack.isRound ? inRoundZone(stack, rule, standardUncertainty) : alongAxis(stack, rule, standardUncertainty);
}

function alongAxis({ distribution, limits }: Stack, rule: DecisionRule, standardUncertainty: number): Outcome<InspectionRisk> {
  const measuring = linearDistribution(0, [{ coefficient: 1, distribution: { shape: "normal", standardDeviation: standardUncertainty } }]);
  const found = decisionLimits(rule, measuring, limits);
  if (!found.ok) return found;
  const { accepted } = found.value;
  const conforming = (measured: number) => measuring.chanceWithin(limits.lower - measured, limits.upper - measured);
  const ends = [accepted.lower, accepted.upper].filter(Number.isFinite);
  return success({
    limits: found.value,
    global: globalRisk(distribution, measuring, limits, accepted),
    largestSpecificConsumersRisk: Math.max(0, ...ends.map((end) => 1 - conforming(end))),
  });
}

function inRoundZone(
  { distribution, limits: { upper: zone } }: Stack,
  rule: DecisionRule,
  standardUncertainty: number,
): Outcome<InspectionRisk> {
  const variance = standardUncertainty * standardUncertainty;
  const chanceIfOff = (used: number) => normalDiscChance([used / 2, 0], [variance, 0, variance], zone / 2);
  const found = roundDecisionLimits(rule, { chanceIfOff, standardUncertainty: 2 * standardUncertainty }, zone);
  if (!found.ok) return found;
  const acceptance = found.value.accepted.upper;
  return success({
    limits: found.value,
    global: roundGlobalRisk(distribution, standardUncertainty, zone, acceptance),
    largestSpecificConsumersRisk: Math.min(1, Math.max(0, 1 - chanceIfOff(acceptance))),
  });
}
