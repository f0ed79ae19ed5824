import { describeProblem } from "../base/outcome.ts";
import type { Setup } from "../datum/setup.ts";
import type { Interval } from "../decision/conformance.ts";
import type { DecisionLimits } from "../decision/decisionLimits.ts";
import { judgeCharacteristic } from "../decision/judgeCharacteristic.ts";
import type { Stack } from "../tolerance/stack.ts";
import { chanceText } from "./internals/chanceText.ts";

/**
 * What the decision rule says of one characteristic of this part as it is foreseen before it is cut, with the chance and the acceptance limits on which that rests.
 *
 * @param length writes millimetres in the unit of the reader
 */
export function verdictSentence(stack: Stack, decision: Setup["decision"], length: (millimetres: number) => string): string {
  const found = judgeCharacteristic(stack, decision);
  const name = `"${stack.characteristic}"`;
  if (!found.ok || !decision.ok) return `${name} is not decided: ${found.ok ? "" : found.problems.map(describeProblem).join(" ")}`;
  const { verdict, conformanceProbability, limits } = found.value;
  const by = decision.value.name === "simple acceptance" ? "" : ` by ${decision.value.name}`;
  const reasons = [
    `conformance probability ${chanceText(conformanceProbability)}`,
    ...(limits.ok
      ? [acceptedText(limits.value.accepted, length), bandsText(limits.value, length)]
      : ["guard bands leave nothing that could be accepted"]),
  ].filter((reason) => reason !== "");
  return `${name} would be ${verdict === "neither" ? "neither accepted nor rejected" : verdict}${by}: ${reasons.join(", ")}.`;
}

function acceptedText({ lower, upper }: Interval, length: (millimetres: number) => string): string {
  if (lower === Number.NEGATIVE_INFINITY) return `accepted up to ${length(upper)}`;
  return upper === Number.POSITIVE_INFINITY ? `accepted from ${length(lower)}` : `accepted from ${length(lower)} to ${length(upper)}`;
}

/** Negative outside of the limits. */
function bandsText({ guardBands: { lower, upper }, accepted }: DecisionLimits, length: (millimetres: number) => string): string {
  const [below, above] = [length(lower), length(upper)];
  if (lower === 0 && upper === 0) return "";
  if (accepted.lower === Number.NEGATIVE_INFINITY) return `a guard band of ${above}`;
  if (accepted.upper === Number.POSITIVE_INFINITY) return `a guard band of ${below}`;
  return below === above ? `guard bands of ${above}` : `guard bands of ${below} below and ${above} above`;
}
