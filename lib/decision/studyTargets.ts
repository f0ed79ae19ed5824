import type { Outcome } from "../base/outcome.ts";
import { failure, success } from "../base/outcome.ts";
import { axes } from "../base/vector.ts";
import { budgetDistribution } from "../tolerance/budgetDistribution.ts";
import { deviations, type View } from "../tolerance/deviations.ts";
import type { Range } from "../tolerance/stack.ts";
import type { Budget } from "../uncertainty/budget.ts";
import type { Distribution } from "../uncertainty/distribution.ts";
import { binary, type Uncertain } from "../uncertainty/uncertain.ts";
import type { SetupEvaluation, StrategyEvaluation } from "./setupEvaluation.ts";
import { strategyNamed } from "./strategyNamed.ts";

/** A result of a strategy that can be studied. */
export interface StudyTarget extends Studied {
  /** `zero X`, `rotation`, or the name of a characteristic. */
  readonly name: string;
  readonly unit: "mm" | "rad";
}

/** What can be looked at beyond first order: by trials of the whole model, or corrected by a few of them. */
export interface Studied {
  /** The result itself; in a round zone the diameter used, 2·√(x² + y²). */
  readonly value: Uncertain;
  /** What it is made of: itself, or the deviations along X and Y. */
  readonly components: readonly Uncertain[];
  readonly budgets: readonly Budget[];
  /** Distribution of the result with its components to first order. */
  readonly linear: Distribution;
  /** Of a characteristic. */
  readonly limits: Range | undefined;
}

/**
 * What a strategy makes, as targets of a study: its zero and turn, where they are determined, and the deviations of all characteristics in one
 * view. A problem when the strategy is not there or could not be solved.
 */
export function studyTargets(
  evaluation: Pick<SetupEvaluation, "strategies" | "location">,
  strategy: string,
  view: View,
): Outcome<readonly StudyTarget[]> {
  const found = strategyNamed(evaluation.strategies, strategy);
  if (!found.ok) return found;
  const targets = [...zeroTargets(found.value), ...characteristicTargets(found.value, evaluation, view)];
  return targets.length > 0
    ? success(targets)
    : failure({ at: `strategies.${strategy}`, what: "nothing of this strategy is determined", remedy: "add touches to it" });
}

function zeroTargets({ solution: { fromReadings }, zero, rotation }: StrategyEvaluation): StudyTarget[] {
  const named: readonly (readonly [string, "mm" | "rad", Uncertain, Outcome<Budget>])[] = [
    ...axes.map((axis, i) => [`zero ${axis}`, "mm", fromReadings.zero[i] as Uncertain, zero[i] as Outcome<Budget>] as const),
    ["rotation", "rad", fromReadings.rotation, rotation],
  ];
  return named.flatMap(([name, unit, value, budget]): StudyTarget[] =>
    budget.ok
      ? [{ name, unit, value, components: [value], budgets: [budget.value], linear: budgetDistribution(budget.value), limits: undefined }]
      : [],
  );
}

function characteristicTargets(strategy: StrategyEvaluation, { location }: Pick<SetupEvaluation, "location">, view: View): StudyTarget[] {
  const found = deviations(strategy.solution, location, view);
  return strategy[view].stacks.flatMap((stack, i): StudyTarget[] => {
    const deviation = found[i];
    if (!stack.ok || !deviation?.ok) return [];
    const { characteristic: name, components: budgets, distribution: linear, limits, unit } = stack.value;
    const [x, y] = deviation.value as readonly [Uncertain, Uncertain?];
    const value = y === undefined ? x : binary("hypotenuse", x, y).times(2);
    return [{ name, unit, value, components: deviation.value, budgets, linear, limits }];
  });
}
