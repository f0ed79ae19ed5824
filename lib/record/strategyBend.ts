import type { Outcome } from "../base/outcome.ts";
import { axes } from "../base/vector.ts";
import type { SetupEvaluation, StrategyEvaluation } from "../decision/setupEvaluation.ts";
import { deviations, type View } from "../tolerance/deviations.ts";
import { type SecondOrder, secondOrder, secondOrderMatters } from "../uncertainty/secondOrder.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";
import { significantDigits } from "./significantDigits.ts";
import { strategyInUse } from "./strategyInUse.ts";

/** Where first order does not tell u of what a strategy makes, to the digits that are shown; plain data. */
export interface StrategyBend {
  readonly strategy: string;
  readonly view: View;
  /** Those of its results whose u the terms of second order change, or may change; none where first order holds. */
  readonly results: readonly BentResult[];
}

/** A result whose model is too curved for first order. */
export interface BentResult {
  /** `zero X`, `rotation`, or the name of a characteristic. */
  readonly name: string;
  readonly unit: "mm" | "rad";
  /** Of its components: X and Y in a round zone. */
  readonly terms: readonly Outcome<SecondOrder>[];
}

interface Asked {
  readonly name: string;
  readonly unit: "mm" | "rad";
  readonly components: readonly Uncertain[];
}

/**
 * Looks at the terms of second order (JCGM 100:2008, 5.1.2, note) of everything that a strategy makes: its zero and turn, and the deviations of all
 * characteristics in one view. What was found is kept with the strategy.
 */
export function strategyBend(strategy: StrategyEvaluation, { location }: Pick<SetupEvaluation, "location">, view: View): StrategyBend {
  const kept = known.get(strategy)?.get(view);
  if (kept) return kept;
  const asked = [...ofZero(strategy), ...ofCharacteristics(strategy, location, view)];
  const terms = secondOrder(asked.flatMap(({ components }) => components));
  const results = asked.flatMap(({ name, unit, components }): BentResult[] => {
    const own = terms.splice(0, components.length);
    const isQuiet = own.every((each) => each.ok && secondOrderMatters(each.value, significantDigits) === "does not matter");
    return isQuiet ? [] : [{ name, unit, terms: own }];
  });
  const found = { strategy: strategy.id, view, results };
  known.set(strategy, new Map(known.get(strategy)).set(view, found));
  return found;
}

const known = new WeakMap<StrategyEvaluation, Map<View, StrategyBend>>();

/** Of the strategies that are told in words: the one in use and the first of the ranking. */
export function bendsOfTold(evaluation: SetupEvaluation, view: View): StrategyBend[] {
  const first = evaluation.strategies.find(({ id }) => id === evaluation.ranking.order[0])?.evaluation;
  const told = [strategyInUse(evaluation)?.evaluation, first?.ok ? first.value : undefined];
  return [...new Set(told)].flatMap((strategy) => (strategy === undefined ? [] : [strategyBend(strategy, evaluation, view)]));
}

/** Of all strategies that could be solved. */
export function bendsOfAll(evaluation: SetupEvaluation, view: View): StrategyBend[] {
  return evaluation.strategies.flatMap(({ evaluation: strategy }) => (strategy.ok ? [strategyBend(strategy.value, evaluation, view)] : []));
}

function ofZero({ zero, rotation, solution: { fromReadings } }: StrategyEvaluation): Asked[] {
  return [
    ...axes.flatMap((axis, i): Asked[] =>
      zero[i]?.ok ? [{ name: `zero ${axis}`, unit: "mm", components: [fromReadings.zero[i] as Uncertain] }] : [],
    ),
    ...(rotation.ok ? [{ name: "rotation", unit: "rad", components: [fromReadings.rotation] } as const] : []),
  ];
}

function ofCharacteristics(strategy: StrategyEvaluation, location: SetupEvaluation["location"], view: View): Asked[] {
  const found = deviations(strategy.solution, location, view);
  return strategy[view].stacks.flatMap((stack, i): Asked[] => {
    const deviation = found[i];
    return stack.ok && deviation?.ok ? [{ name: stack.value.characteristic, unit: stack.value.unit, components: deviation.value }] : [];
  });
}
