import { type Outcome, success } from "../base/outcome.ts";
import type { PartLocation } from "../datum/locatePart.ts";
import type { Draws } from "../uncertainty/draws.ts";
import { allowedDoubt, type Judged, singleDoubts } from "./allowedDoubt.ts";
import { helpfulMoves } from "./helpfulMoves.ts";
import type { Improvement, ImprovementRequest } from "./improvement.ts";
import type { StrategyEvaluation } from "./setupEvaluation.ts";

/** What would help a strategy, and how large each of its doubts may be: all of it read off the stacks that there are, nothing solved again. */
export function whatHelps(
  strategy: StrategyEvaluation,
  { setup, counted }: PartLocation,
  { view, wanted }: Pick<ImprovementRequest, "view" | "wanted">,
  draws: Draws,
): Outcome<Pick<Improvement, "moves" | "allowances">> {
  const { chanceOfAll, stacks } = strategy[view];
  if (!chanceOfAll.ok) return chanceOfAll;
  const judged = setup.part.characteristics.flatMap((characteristic, i): Judged[] => {
    const stack = stacks[i];
    return stack?.ok ? [{ characteristic, stack: stack.value }] : [];
  });
  const touches = view === "batch" ? strategy.solution.strategy.touches : counted.map(({ touch }) => touch);
  const allowances = singleDoubts(judged).map((doubt) => allowedDoubt(judged, doubt, wanted));
  return success({
    moves: helpfulMoves(judged, setup, [...new Set(touches)], draws),
    allowances: allowances.sort((a, b) => a.factor - b.factor || (a.doubt.label < b.doubt.label ? -1 : 1)),
  });
}
