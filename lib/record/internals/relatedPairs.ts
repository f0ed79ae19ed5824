import type { OwnEvaluation, SetupEvaluation } from "../../decision/setupEvaluation.ts";
import type { RelatedPair } from "../../uncertainty/relateSources.ts";

/** Stated doubts that go together, of the setup and of cells. In budgets they stand as what they share and what each has apart. */
export function relatedPairs({ location, related = [] }: SetupEvaluation & Partial<OwnEvaluation>): readonly RelatedPair[] {
  return [...location.related, ...related];
}
