import type { OwnEvaluation, SetupEvaluation } from "../../decision/setupEvaluation.ts";
import { soundBudget } from "../../formula/soundBudget.ts";
import type { NestsEvaluation } from "../../offsets/nests.ts";
import type { FixtureEvaluation } from "../../tolerance/judgeFixture.ts";
import type { Budget } from "../../uncertainty/budget.ts";
import type { Source } from "../../uncertainty/source.ts";
import { standardUncertaintyOf } from "../../uncertainty/sourceDistribution.ts";
import { plainEvidence } from "./plainEvidence.ts";
import { plainNumber } from "./plainNumber.ts";

/** The sources of all results as plain data, each once: what the results can be recomputed from. */
export function plainSources(evaluation: SetupEvaluation & Partial<OwnEvaluation>) {
  return sourcesOf(evaluation).map(plainSource);
}

/** Every source that any result rests on, by name: of the setup, and of cells of a person's own. */
export function sourcesOf(evaluation: SetupEvaluation & Partial<OwnEvaluation>): Source[] {
  const { faces, sizes, predictions, strategies, fixture, offsets, nests } = evaluation;
  const budgets = [
    ...budgetsOfOwn(evaluation),
    ...(nests === undefined ? [] : budgetsOfNests(nests)),
    ...[...faces, ...predictions, ...sizes].map(({ budget }) => budget),
    ...sizes.flatMap(({ difference }) => difference ?? []),
    ...(fixture === undefined ? [] : budgetsOfFixture(fixture)),
    ...(offsets?.registers ?? []).flatMap(({ coordinates }) => coordinates.flatMap(({ sum }) => (sum.ok ? [sum.value] : []))),
    ...strategies.flatMap(({ evaluation: outcome }) => {
      if (!outcome.ok) return [];
      const { zero, rotation, thisPart, batch } = outcome.value;
      const components = [...thisPart.stacks, ...batch.stacks].flatMap((stack) => (stack.ok ? stack.value.components : []));
      return [...[...zero, rotation].flatMap((budget) => (budget.ok ? [budget.value] : [])), ...components];
    }),
  ];
  const sources = new Map(budgets.flatMap(({ contributions }) => contributions.map(({ source }) => [source.id, source] as const)));
  return [...sources.values()].sort((a, b) => (a.id < b.id ? -1 : 1));
}

/** Cells and columns of a person's own may rest on sources that nothing else does. */
function budgetsOfOwn({ own = new Map() }: Partial<OwnEvaluation>): Budget[] {
  const values = [...own.values()].flatMap((cell) => {
    if (!cell.ok) return [];
    return cell.value.kind === "quantity" ? [cell.value.value] : cell.value.rows.flatMap((row) => (row?.ok ? [row.value] : []));
  });
  return values.flatMap((value) => {
    const budget = soundBudget(value);
    return budget.ok ? [budget.value] : [];
  });
}

function budgetsOfNests({ shifted, turned }: NestsEvaluation): Budget[] {
  return [shifted, turned].flatMap((fit) =>
    fit.ok ? [...fit.value.shift, fit.value.rotation, ...fit.value.residuals.flatMap(({ x, y }) => [x, y])] : [],
  );
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
    evidence: plainEvidence(evidence),
    estimate,
    distribution,
    standardUncertainty: standardUncertaintyOf(distribution),
    degreesOfFreedom: plainNumber(degreesOfFreedom),
    limit: limit ?? null,
    circle: circle ?? null,
  };
}
