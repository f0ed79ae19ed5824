import { describeProblem } from "../../base/outcome.ts";
import { type InspectionRisk, inspectionRisk } from "../../decision/inspectionRisk.ts";
import type { SetupEvaluation } from "../../decision/setupEvaluation.ts";
import type { Stack } from "../../tolerance/stack.ts";
import type { JudgementSentence } from "../judgementSentences.ts";
import { strategyInUse } from "../strategyInUse.ts";
import { chanceText } from "./chanceText.ts";
import type { Figures } from "./figures.ts";

/** Characteristics that are told one by one, those of the largest risk to the customer first. */
const told = 2;

/** Whom the inspection of made parts may wrong, where it is stated how well they are measured: by the rule, in the batch of the strategy in use. */
export function inspectionSentences(evaluation: SetupEvaluation, figures: Figures): JudgementSentence[] {
  const { inspection, decision } = evaluation.setup;
  const inUse = strategyInUse(evaluation)?.evaluation;
  if (inspection === undefined || !decision.ok || inUse === undefined) return [];
  const rule = decision.value;
  // A length says nothing of how well an angle is measured.
  const stacks = inUse.batch.stacks.flatMap((stack) => (stack.ok && stack.value.unit === "mm" ? [stack.value] : []));
  const judged = stacks.map((stack) => ({ stack, risk: inspectionRisk(stack, rule, inspection) }));
  const known = judged
    .flatMap(({ stack, risk }) => (risk.ok ? [{ stack, risk: risk.value }] : []))
    .sort((a, b) => b.risk.global.consumersRisk - a.risk.global.consumersRisk)
    // Of a pattern its worst member.
    .filter(isFirstOfRow);
  const measured = `measured with a standard uncertainty of ${figures.uncertainty(inspection)} ${figures.unit} and judged by ${rule.name}`;
  const [next] = known.slice(told);
  return [
    ...judged
      .filter(isFirstOfRow)
      .flatMap(({ stack, risk }) =>
        risk.ok ? [] : [sentence(stack, `"${stack.characteristic}", ${measured}: ${risk.problems.map(describeProblem).join(" ")}`)],
      ),
    ...known.slice(0, told).map(({ stack, risk }) => sentence(stack, riskText(stack, risk, measured, figures))),
    ...(next === undefined
      ? []
      : [
          sentence(
            next.stack,
            `Of the ${known.length - told} other characteristics, so measured, none that does not conform passes more often than ${riskOf(next.risk.global.consumersRisk).replace(/^below /, "")}.`,
          ),
        ]),
  ];
}

function isFirstOfRow({ stack: { row } }: { readonly stack: Stack }, i: number, all: readonly { readonly stack: Stack }[]): boolean {
  return all.findIndex(({ stack }) => stack.row === row) === i;
}

function riskText(
  stack: Stack,
  { limits: { accepted }, global, largestSpecificConsumersRisk }: InspectionRisk,
  measured: string,
  figures: Figures,
): string {
  const { lower, upper } = accepted;
  const within =
    lower === Number.NEGATIVE_INFINITY
      ? `up to ${figures.length(upper)}`
      : upper === Number.POSITIVE_INFINITY
        ? `from ${figures.length(lower)}`
        : `from ${figures.length(lower)} to ${figures.length(upper)}`;
  return `"${stack.characteristic}" of the batch, ${measured}, is accepted ${within} ${figures.unit}: ${riskOf(global.consumersRisk)} of the parts do not conform and pass (consumer's risk), ${riskOf(global.producersRisk)} conform and do not pass (producer's risk). One that measures at the limit of acceptance does not conform with a chance of ${chanceText(largestSpecificConsumersRisk)}.`;
}

/** Risks are small as a rule: in per cent as far as that goes, then per million. */
function riskOf(chance: number): string {
  if (chance >= smallestPercentage) return chanceText(chance);
  const perMillion = Math.round(1e6 * chance);
  return perMillion >= 1 ? `${perMillion} in a million` : "below 1 in a million";
}

const smallestPercentage = 1e-3;

function sentence({ row }: Stack, text: string): JudgementSentence {
  return { kind: "inspection", at: `part.characteristics.${row}`, text };
}
