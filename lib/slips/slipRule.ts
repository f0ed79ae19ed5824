import type { SlipFacts } from "./slipFacts.ts";

/** One thing that looks like a slip. */
export interface SlipFinding {
  /** Where to look first: the path of an entry. */
  readonly at: string;
  /** What was seen, in numbers, as a sentence without a full stop. */
  readonly evidence: string;
  /** How many times as far as the threshold, 1 or more; where the threshold is a pattern, how far the evidence is beyond its own doubt beside what the rule asks for; `Infinity` where nothing at all was allowed. */
  readonly beyond: number;
  /** What it suggests. */
  readonly suggests: string;
  /** The one reading or touch that would decide. */
  readonly deciding: string;
}

/** What a rule says: nothing, that something it needs is not known, or what it found. */
export type SlipAnswer =
  | { readonly kind: "nothing" }
  | { readonly kind: "not applicable"; readonly because: string }
  | { readonly kind: "found"; readonly findings: readonly SlipFinding[] };

/**
 * One rule that sees one mistake. It reports evidence and never blocks or corrects anything. The formulas are arithmetic on the sign rule
 * F = R + a · r; thresholds without another source are common practice.
 */
export interface SlipRule {
  /** The mistake that it sees. */
  readonly name: string;
  /** What is compared, as a formula in words. */
  readonly formula: string;
  readonly threshold: string;
  /** Highest chance that a setup without any slip sets it off, from 0 to 1; 0 for a rule that reads off what is stated and has no scatter to be fooled by. */
  readonly falseAlarmRate: number;
  readonly look: (facts: SlipFacts) => SlipAnswer;
}

/** The answer of a rule that judges each of several facts; without any of them it is not applicable. */
export function judgeEach<Fact>(
  facts: readonly Fact[] | undefined,
  missing: string,
  judge: (fact: Fact, outOf: number) => SlipFinding | undefined,
): SlipAnswer {
  if (facts === undefined || facts.length === 0) return { kind: "not applicable", because: `${missing} is not known` };
  const findings = facts.flatMap((fact) => judge(fact, facts.length) ?? []);
  return findings.length === 0 ? { kind: "nothing" } : { kind: "found", findings };
}
