// The public surface, in the order in which a setup is thought through.

// What results are made of: outcomes with reasons, budgets by source, distributions.
export { describeProblem, type Outcome, type Problem } from "./base/outcome.ts";
// Start here: a setup document in, every result out.
export { parseDocument } from "./document/parseDocument.ts";
export type { SetupDocument } from "./document/setupDocument.ts";
export { evaluateSetup, type SetupEvaluation, type StrategyEvaluation } from "./evaluateSetup.ts";
// What leaves the notebook: plain data, a readable sheet, judgement in sentences, cautions.
export { cautions } from "./record/cautions.ts";
export { judgementSentences } from "./record/judgementSentences.ts";
export { plainResults } from "./record/plainResults.ts";
export { summaryText } from "./record/summaryText.ts";
export { type Budget, byFamily, type Contribution } from "./uncertainty/budget.ts";
export type { Distribution } from "./uncertainty/distribution.ts";
export { type Family, families, type Source } from "./uncertainty/source.ts";
