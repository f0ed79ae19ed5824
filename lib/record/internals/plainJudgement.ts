import type { Outcome } from "../../base/outcome.ts";
import type { Interval } from "../../decision/conformance.ts";
import type { DecisionLimits } from "../../decision/decisionLimits.ts";
import { type InspectionRisk, inspectionRisk } from "../../decision/inspectionRisk.ts";
import { type CharacteristicVerdict, judgeCharacteristic } from "../../decision/judgeCharacteristic.ts";
import type { DecisionRule } from "../../part/decisionRule.ts";
import type { Judgement } from "../../tolerance/judgeStrategy.ts";
import { unlimitedAt } from "../../tolerance/reaches.ts";
import type { Stack, StackRow } from "../../tolerance/stack.ts";
import { summariseTrials, type TrialSummary } from "../../tolerance/summariseTrials.ts";
import type { Draws } from "../../uncertainty/draws.ts";
import { standardUncertaintyOf } from "../../uncertainty/sourceDistribution.ts";
import { plainNumber } from "./plainNumber.ts";
import { plainOutcome } from "./plainProblem.ts";
import { plainQuantity } from "./plainQuantity.ts";

/**
 * What a strategy does to the drawing in one view, as plain data.
 *
 * @param rule by which each characteristic of this part is decided, as it is foreseen
 * @param inspection of the made parts of the batch, one by one
 */
export function plainJudgement(
  { stacks, chanceOfAll, bottleneck, rows }: Judgement,
  characteristics: readonly { readonly id: string }[],
  draws: Draws,
  { rule, inspection }: { readonly rule?: Outcome<DecisionRule>; readonly inspection?: Inspection | undefined } = {},
) {
  return {
    chanceOfAll: plainOutcome(chanceOfAll, (chance) => ({ ...chance })),
    bottleneck: bottleneck ?? null,
    rows: rows.map(({ row, members, chanceOfAll: all, worst }) => ({
      id: row,
      members: members.map((i) => (characteristics[i] as { readonly id: string }).id),
      worst: worst ?? null,
      chanceOfAll: plainOutcome(all, (chance) => ({ ...chance })),
    })),
    characteristics: stacks.map((stack, i) => ({
      id: (characteristics[i] as { readonly id: string }).id,
      ...plainOutcome(stack, (each) => ({
        ...plainStack(each, draws),
        ...(rule && { decision: plainOutcome(judgeCharacteristic(each, rule), plainVerdict) }),
        ...(inspection &&
          each.unit === "mm" && {
            inspection: plainOutcome(inspectionRisk(each, inspection.rule, inspection.standardUncertainty), plainRisk),
          }),
      })),
    })),
  };
}

/** Shares of the tolerance and chances are plain ratios; in a round zone all lengths are diameters, told without the bonus of maximum material. */
export function plainStack(stack: Stack, draws: Draws) {
  const { distribution } = stack;
  return {
    kind: stack.kind,
    unit: stack.unit,
    limits: { lower: stack.limits.lower, upper: finiteOrNull(stack.limits.upper) },
    deviation: stack.deviation,
    components: stack.components.map((component, i) => ({
      axis: stack.isRound ? (i === 0 ? ("X" as const) : ("Y" as const)) : null,
      ...plainQuantity(component, stack.unit),
    })),
    worstCase: { ...stack.worstCase, shareOfTolerance: stack.shares.worstCase, sources: stack.rows.map(plainRow) },
    rootSumSquare: { ...stack.rootSumSquare, shareOfTolerance: stack.shares.rootSumSquare },
    deviationShareOfTolerance: stack.shares.deviation,
    chance: stack.chance,
    errorOfChance: stack.chanceError,
    ...(stack.bonus && {
      atMaximumMaterial: { bonus: stack.bonus.range, virtualCondition: stack.bonus.virtualCondition, chance: stack.bonus.chance },
    }),
    distribution: {
      mean: plainNumber(distribution.mean),
      standardDeviation: plainNumber(distribution.standardDeviation),
      quantiles: quantilesGiven.map((probability) => ({ probability, value: plainNumber(distribution.quantile(probability)) })),
      errorOfChances: distribution.error,
      method: distribution.method,
    },
    sampled: plainTrials(summariseTrials(stack, draws)),
  };
}

/** How the made parts of a batch are measured, mm, and judged. */
export interface Inspection {
  readonly rule: DecisionRule;
  readonly standardUncertainty: number;
}

function plainRisk({ limits, global, largestSpecificConsumersRisk }: InspectionRisk) {
  return { limits: plainLimits(limits), global: { ...global }, largestSpecificConsumersRisk };
}

/** Limits of the deviation, mm; null where the tolerance has no limit on that side. */
function plainVerdict({ verdict, conformanceProbability, limits }: CharacteristicVerdict) {
  return { verdict, conformanceProbability, limits: plainOutcome(limits, plainLimits) };
}

function plainLimits({ accepted, notRejected, guardBands }: DecisionLimits) {
  const plainInterval = ({ lower, upper }: Interval) => ({ lower: finiteOrNull(lower), upper: finiteOrNull(upper) });
  return { accepted: plainInterval(accepted), notRejected: plainInterval(notRejected), guardBands: { ...guardBands } };
}

function finiteOrNull(value: number): number | null {
  return Number.isFinite(value) ? value : null;
}

/** What seeded trials of the same linear deviation say: a look at the computed distribution from another side. */
function plainTrials({ sorted, ...summary }: TrialSummary) {
  const quantile = (probability: number) => sorted[Math.min(sorted.length - 1, Math.floor(probability * sorted.length))] as number;
  return { ...summary, quantiles: quantilesGiven.map((probability) => ({ probability, value: quantile(probability) })) };
}

/** The median and the ends of the probabilistically symmetric 95 % interval (JCGM 101:2008, 7.7). */
const quantilesGiven = [0.025, 0.5, 0.975];

function plainRow({ source, reaches, unlimited }: StackRow) {
  const limit = unlimited ? unlimitedAt * standardUncertaintyOf(source.distribution) : null;
  return { source: source.id, reaches, takenAsLimit: limit };
}
