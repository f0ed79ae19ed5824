import type { Budget } from "../uncertainty/budget.ts";
import type { Distribution } from "../uncertainty/distribution.ts";
import { type LinearTerm, linearDistribution } from "../uncertainty/linearDistribution.ts";
import { independentTerms } from "./independentTerms.ts";

/** How a result is distributed to first order, by the distributions of its sources themselves. */
export function budgetDistribution({ value, sources, sensitivities }: Budget): Distribution {
  const effects = sources.flatMap((source, i) => (sensitivities[i] === 0 ? [] : [{ source, sensitivities: [sensitivities[i] as number] }]));
  const terms = independentTerms(effects).map(
    ({ sensitivities: [coefficient], distribution }): LinearTerm => ({ coefficient: coefficient as number, distribution }),
  );
  return linearDistribution(value, terms);
}
