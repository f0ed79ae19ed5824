import { failure, type Outcome, type Problem, success } from "../base/outcome.ts";
import { parseNumber } from "../formula/parseNumber.ts";
import { type DecisionRule, usualProbability } from "../part/decisionRule.ts";
import type { SetupDocument } from "./setupDocument.ts";

/**
 * The decision rule that a document states. Its probability may be typed as `95 %` or as 0.95; without one it is the usual 95 %.
 *
 * @param problems gains what cannot be read; no rule stands in for one that is stated and not readable
 */
export function readDecision({ decision: { rule, conformanceProbability } }: SetupDocument, problems: Problem[]): Outcome<DecisionRule> {
  const probability = readProbability(conformanceProbability);
  if (!probability.ok) problems.push(...probability.problems);
  if (rule === "simple acceptance") return success({ name: rule });
  return probability.ok ? success({ name: rule, guard: { by: "probability", probability: probability.value } }) : probability;
}

function readProbability(text: string): Outcome<number> {
  if (text.trim() === "") return success(usualProbability);
  const [, digits = text, percent] = /^(.*?)\s*(%)?\s*$/s.exec(text) ?? [];
  const parsed = parseNumber(digits);
  const at = "decision.conformanceProbability";
  if (!parsed.ok) return failure(...parsed.problems.map((problem) => ({ ...problem, at, got: text })));
  const probability = percent === undefined ? parsed.value.value : parsed.value.value / 100;
  if (probability >= 0.5 && probability < 1) return success(probability);
  return failure({
    at,
    what: "no guard band can be made for this probability",
    expected: "from 50 % to below 100 %, such as 95 %",
    got: text,
  });
}
