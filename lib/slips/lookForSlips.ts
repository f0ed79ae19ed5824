import type { SetupEvaluation, StrategyEvaluation } from "../decision/setupEvaluation.ts";
import { earlierZeros } from "./explain/earlierZeros.ts";
import { type Disagreement, explainDisagreement } from "./explain/explainDisagreement.ts";
import { factsOfSetup } from "./factsOfSetup.ts";
import type { SlipFacts } from "./slipFacts.ts";
import type { SlipAnswer, SlipFinding, SlipRule } from "./slipRule.ts";
import { slipRules } from "./slipRules.ts";

/** What one rule says of a setup. */
export interface RuleAnswer {
  readonly rule: SlipRule;
  readonly answer: SlipAnswer;
}

/** What looks like a slip in a setup. */
export interface SlipReport {
  readonly answers: readonly RuleAnswer[];
  /** The farthest beyond its threshold first. */
  readonly findings: readonly (SlipFinding & { readonly rule: string })[];
  /** Evidence that does not fit, and what may have happened; undefined where it fits, or nothing is known twice. */
  readonly disagreement: Disagreement | undefined;
}

/** Every rule's answer to these facts. */
export function answersTo(facts: SlipFacts): RuleAnswer[] {
  return slipRules.map((rule) => ({ rule, answer: rule.look(facts) }));
}

/** All rules, and what explains evidence that disagrees. Nothing is corrected: each finding names the reading that would decide. */
export function lookForSlips(
  evaluation: Pick<SetupEvaluation, "setup" | "location" | "checks" | "fixture"> & Partial<Pick<SetupEvaluation, "offsets">>,
  inUse: StrategyEvaluation | undefined,
): SlipReport {
  const answers = answersTo(factsOfSetup(evaluation, inUse));
  const findings = answers.flatMap(({ rule, answer }) =>
    answer.kind === "found" ? answer.findings.map((finding) => ({ ...finding, rule: rule.name })) : [],
  );
  const offset = inUse?.offset.ok ? inUse.offset.value.values : [];
  const zero = (["X", "Y", "Z"] as const).map((axis) => offset.find((each) => each.axis === axis)?.value);
  return {
    answers,
    findings: [...findings].sort((a, b) => b.beyond - a.beyond),
    disagreement: explainDisagreement(evaluation.location, {
      zero,
      ...(inUse && { besides: earlierZeros(evaluation.location, inUse.solution.strategy) }),
    }),
  };
}
