import type { SetupEvaluation, StrategyEvaluation } from "../decision/setupEvaluation.ts";

/** The strategy whose offset is typed. */
export interface StrategyInUse {
  readonly evaluation: StrategyEvaluation;
  /** Whether the document names it; otherwise it is the first of the ranking that could be solved. */
  readonly chosen: boolean;
}

/** Undefined when the chosen strategy could not be solved: another one is never put in its place unasked. */
export function strategyInUse({ setup, strategies, ranking }: SetupEvaluation): StrategyInUse | undefined {
  const solved = strategies.flatMap(({ evaluation }) => (evaluation.ok ? [evaluation.value] : []));
  const chosen = setup.chosen !== "";
  const order = chosen ? [setup.chosen] : ranking.order;
  const evaluation = order.map((id) => solved.find((strategy) => strategy.id === id)).find((found) => found !== undefined);
  return evaluation && { evaluation, chosen };
}
