import type { Outcome } from "../base/outcome.ts";
import { axes } from "../base/vector.ts";
import type { StrategyEvaluation } from "../decision/setupEvaluation.ts";
import { type SecondOrder, secondOrder } from "../uncertainty/secondOrder.ts";

/** What the terms of second order do to one of X, Y, Z and the rotation of a zero. */
export interface ZeroSecondOrder {
  readonly name: (typeof axes)[number] | "rotation";
  readonly terms: Outcome<SecondOrder>;
}

/** The terms of second order of all of a strategy's zero that is known, worked out together. */
export function zeroSecondOrder({ zero, rotation, solution: { fromReadings } }: StrategyEvaluation): ZeroSecondOrder[] {
  const known = [
    ...axes.map((name, i) => ({ name, value: fromReadings.zero[i as 0 | 1 | 2], isKnown: (zero[i] as Outcome<unknown>).ok })),
    { name: "rotation" as const, value: fromReadings.rotation, isKnown: rotation.ok },
  ].filter(({ isKnown }) => isKnown);
  const terms = secondOrder(known.map(({ value }) => value));
  return known.map(({ name }, i) => ({ name, terms: terms[i] as Outcome<SecondOrder> }));
}
