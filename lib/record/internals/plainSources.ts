import type { SetupEvaluation } from "../../decision/setupEvaluation.ts";
import type { FixtureEvaluation } from "../../tolerance/judgeFixture.ts";
import type { Budget } from "../../uncertainty/budget.ts";
import type { Source } from "../../uncertainty/source.ts";
import { standardUncertaintyOf } from "../../uncertainty/sourceDistribution.ts";
import { plainNumber } from "./plainNumber.ts";

/** The sources of all results as plain data, each once: what the results can be recomputed from. */
export function plainSources(evaluation: SetupEvaluation) {
  return sourcesOf(evaluation).map(plainSource);
}

/** Every source that any result rests on, by name. */
export function sourcesOf({ faces, sizes, predictions, strategies, fixture, offsets }: SetupEvaluation): Source[] {
  const budgets = [
    ...[...faces, ...predictions, ...sizes].map(({ budget }) => budget),
    ...sizes.flatMap(({ difference }) => difference ?? []),
    ...(fixture === undefined ? [] : budgetsOfFixture(fixture)),
    ...(offsets?.registers ?? []).flatMap(({ coordinates }) => coordinates.flatMap(({ sum }) => (sum.ok ? [sum.value] : []))),
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

function budgetsOfFixture({ located, seat }: FixtureEvaluation): Budget[] {
  const locating = located.ok
    ? [
        ...located.value.turns.flatMap((turn) => turn ?? []),
        ...located.value.errors,
        ...located.value.gaps.map(({ gap }) => gap),
        ...located.value.judgement.stacks.flatMap((stack) => (stack.ok ? stack.value.components : [])),
      ]
    : [];
  const seated = seat?.ok
    ? [...[...seat.value.touched, ...seat.value.pads].map(({ lift }) => lift), ...(seat.value.twist ? [seat.value.twist] : [])]
    : [];
  return [...locating, ...seated];
}

function plainSource({ id, label, family, evidence, estimate, distribution, degreesOfFreedom, limit, circle }: Source) {
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
    circle: circle ?? null,
  };
}
