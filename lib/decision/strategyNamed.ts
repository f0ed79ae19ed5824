import { failure, type Outcome } from "../base/outcome.ts";
import type { SetupEvaluation, StrategyEvaluation } from "./setupEvaluation.ts";

/** The evaluation of the strategy of this name; a problem when there is none, or when it could not be solved. */
export function strategyNamed(strategies: SetupEvaluation["strategies"], id: string): Outcome<StrategyEvaluation> {
  const found = strategies.find((strategy) => strategy.id === id);
  if (found !== undefined) return found.evaluation;
  const remedy = strategies.length === 0 ? "make one of the touches" : "choose one of the listed strategies";
  if (id === "") return failure({ at: "chosen", what: "no strategy is chosen", remedy });
  return failure({ at: "chosen", what: "the chosen strategy is not among those that can be read", got: id, remedy });
}
