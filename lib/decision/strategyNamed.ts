import { failure, type Outcome } from "../base/outcome.ts";
import type { SetupEvaluation, StrategyEvaluation } from "./setupEvaluation.ts";

/** The evaluation of the strategy of this name; a problem when there is none, or when it could not be solved. */
export function strategyNamed(strategies: SetupEvaluation["strategies"], id: string): Outcome<StrategyEvaluation> {
  const found = strategies.find((strategy) => strategy.id === id);
  if (found !== undefined) return found.evaluation;
  const what = id === "" ? "no strategy is chosen" : "the chosen strategy is not among those that can be read";
  return failure({ at: "chosen", what, got: id, remedy: "choose one of the listed strategies" });
}
