import { describeProblem, type Outcome } from "../base/outcome.ts";
import { axes } from "../base/vector.ts";
import type { SetupEvaluation, StrategyEvaluation } from "../decision/setupEvaluation.ts";
import { strategyNamed } from "../decision/strategyNamed.ts";
import type { Judgement } from "../tolerance/judgeStrategy.ts";
import type { Budget } from "../uncertainty/budget.ts";
import { expandedUncertainty } from "./expandedUncertainty.ts";
import { obstacles } from "./obstacles.ts";

/**
 * What thousands of evaluations are compared by, as plain data: the zero of every strategy and its chances, the one to be preferred first, in
 * millimetres and radians.
 * `plainResults` has all the rest. What is not known is null, and `problems` says why.
 */
export function briefResults(evaluation: SetupEvaluation) {
  return {
    title: evaluation.setup.title,
    strategies: evaluation.ranking.order.map((id) => {
      const found = strategyNamed(evaluation.strategies, id);
      return { id, ...(found.ok ? briefStrategy(found.value) : nothing) };
    }),
    problems: obstacles(evaluation).map(describeProblem),
  };
}

const nothing = { zero: { X: null, Y: null, Z: null }, rotation: null, thisPart: null, batch: null };

function briefStrategy({ zero, rotation, thisPart, batch }: StrategyEvaluation) {
  const [X, Y, Z] = axes.map((_, i) => briefQuantity(zero[i] as Outcome<Budget>));
  return { zero: { X, Y, Z }, rotation: briefQuantity(rotation), thisPart: briefJudgement(thisPart), batch: briefJudgement(batch) };
}

function briefQuantity(budget: Outcome<Budget>) {
  if (!budget.ok) return null;
  const { value, standardUncertainty } = budget.value;
  return { value, standardUncertainty, expandedUncertainty: expandedUncertainty(budget.value).expandedUncertainty };
}

function briefJudgement({ stacks, chanceOfAll, bottleneck }: Judgement) {
  return {
    chanceOfAll: chanceOfAll.ok ? chanceOfAll.value.chance : null,
    bottleneck: bottleneck ?? null,
    chances: Object.fromEntries(stacks.flatMap((stack) => (stack.ok ? [[stack.value.characteristic, stack.value.chance]] : []))),
  };
}
