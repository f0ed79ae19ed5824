import { eventsSince } from "../../decision/eventsSince.ts";
import type { SetupEvaluation } from "../../decision/setupEvaluation.ts";
import { lookForSlips } from "../../slips/lookForSlips.ts";
import { strategyInUse } from "../strategyInUse.ts";
import { plainNumber } from "./plainNumber.ts";
import { plainOutcome } from "./plainProblem.ts";
import { plainQuantity } from "./plainQuantity.ts";

/** Checks beside their predictions, those on faces that the zero does not rest on first. */
export function plainChecks({ checks }: SetupEvaluation) {
  return checks.map(({ check: { id, element, tool, by, when }, usedForZero, evaluation }) => ({
    id,
    element,
    tool,
    by,
    when: when?.text ?? null,
    usedForZero,
    result: plainOutcome(evaluation, ({ axis, predicted, verdict }) => ({
      axis,
      predicted: plainQuantity(predicted, "mm"),
      verdict:
        verdict === undefined
          ? null
          : {
              shown: verdict.shown,
              difference: plainQuantity(verdict.difference, "mm"),
              normalisedError: plainNumber(verdict.normalisedError),
              chance: verdict.chance,
              agrees: verdict.agrees,
              dominating: verdict.dominating?.source.id ?? null,
            },
    })),
  }));
}

export function plainCheckMoves({ checkMoves }: SetupEvaluation) {
  return checkMoves.map(({ move, machine: [x, y, z], work }) => ({
    id: move.id,
    tool: move.tool,
    clearance: move.clearance,
    machine: { X: plainOutcome(x, plainLength), Y: plainOutcome(y, plainLength), Z: plainOutcome(z, plainLength) },
    work: { X: work[0] ?? null, Y: work[1] ?? null, Z: work[2] ?? null },
  }));
}

function plainLength(budget: Parameters<typeof plainQuantity>[0]) {
  return plainQuantity(budget, "mm");
}

export function plainEvents(evaluation: SetupEvaluation) {
  return eventsSince(evaluation).map(({ name, verifiedSince, voids, standing }) => ({ event: name, verifiedSince, voids, standing }));
}

/** What looks like a slip, which rules could not look, and what explains evidence that disagrees. */
export function plainSlips(evaluation: SetupEvaluation) {
  const { findings, answers, disagreement } = lookForSlips(evaluation, strategyInUse(evaluation)?.evaluation);
  return {
    findings: findings.map(({ rule, at, evidence, beyond, suggests, deciding }) => ({
      rule,
      at,
      evidence,
      beyond: plainNumber(beyond),
      suggests,
      deciding,
    })),
    notApplicable: answers.flatMap(({ rule, answer }) =>
      answer.kind === "not applicable" ? [{ rule: rule.name, because: answer.because }] : [],
    ),
    disagreement:
      disagreement === undefined
        ? null
        : {
            chance: disagreement.chance,
            discrepancies: disagreement.discrepancies.map(({ name, at, estimate }) => ({
              name,
              at,
              value: estimate.value,
              standardUncertainty: estimate.standardUncertainty,
              degreesOfFreedom: plainNumber(estimate.degreesOfFreedom),
            })),
            explanations: disagreement.explanations.map(({ slips, share, leftChance, reading }) => ({
              slips: slips.map(({ kind, at, words }) => ({ kind, at, words })),
              share,
              leftChance,
              readingAtDecidingTouch: reading ?? null,
            })),
            deciding:
              disagreement.deciding === undefined ? null : { ...disagreement.deciding, between: [...disagreement.deciding.between] },
          },
  };
}
