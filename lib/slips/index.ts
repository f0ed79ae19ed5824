// What may have slipped: rules over facts, and explanations where evidence disagrees.

export { type Disagreement, explainDisagreement } from "./explain/explainDisagreement.ts";
export { answersTo, lookForSlips, type SlipReport } from "./lookForSlips.ts";
export type { SlipFacts } from "./slipFacts.ts";
export type { SlipRule } from "./slipRule.ts";
