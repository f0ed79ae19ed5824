import { success } from "../base/outcome.ts";
import { type NamedResult, namedResults } from "../decision/namedResults.ts";
import type { SetupEvaluation } from "../decision/setupEvaluation.ts";
import { strategyNamed } from "../decision/strategyNamed.ts";
import { strategyInUse } from "../record/strategyInUse.ts";

/** Every result of this part that has a budget, by the strategy in use: what a budget, a workbook and a file of D-SI tell. */
export function exchangedResults(evaluation: SetupEvaluation): readonly NamedResult[] {
  const inUse = strategyInUse(evaluation);
  const chosen = inUse ? success(inUse.evaluation) : strategyNamed(evaluation.strategies, evaluation.setup.chosen);
  return namedResults(evaluation, chosen, "thisPart");
}
