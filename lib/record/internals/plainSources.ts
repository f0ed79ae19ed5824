import type { SetupEvaluation } from "../../decision/setupEvaluation.ts";
import type { Source } from "../../uncertainty/source.ts";
import { standardUncertaintyOf } from "../../uncertainty/sourceDistribution.ts";
import { plainNumber } from "./plainNumber.ts";

/** The sources of all results as plain data, each once: what the results can be recomputed from. */
export function plainSources(evaluation: SetupEvaluation) {
  return sourcesOf(evaluation).map(plainSource);
}

/** Every source that any result rests on, by name. */
function sourcesOf({ faces, sizes, predictions, strategies }: SetupEvaluation): Source[] {
  const budgets = [
    ...[...faces, ...predictions, ...sizes].map(({ budget }) => budget),
    ...sizes.flatMap(({ difference }) => difference ?? []),
    ...strategies.flatMap(({ evaluation }) => {
      if (!evaluation.ok) return [];
      const { zero, rotation, thisPart, batch } = evaluation.value;
      const components = [...thisPart.stacks, ...batch.stacks].flatMap((stack) => (stack.ok ? stack.value.components : []));
      return [...[...zero, rotation].flatMap((budget) => (budget.ok ? [budget.value] : [])), ...components];
    }),
  ];
  const sources = new Map(budgets.flatMap(({ contributions }) => contributions.map(({ source }) => [source.id, source] as const)));
  return [...sources.values()].sort((a, b) => (a.id < b.id ? -1 : 1));
}

function plainSource({ id, label, family, evidence, estimate, distribution, degreesOfFreedom, limit }: Source) {
  return {
    id,
    label,
    family,
    evidence,
    estimate,
    distribution,
    standardUncertainty: standardUncertaintyOf(distribution),
    degreesOfFreedom: plainNumber(degreesOfFreedom),
    limit: limit ?? null,
  };
}
