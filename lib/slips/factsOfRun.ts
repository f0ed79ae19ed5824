import { type Axis, axes } from "../base/vector.ts";
import type { Setup } from "../datum/setup.ts";
import { judgeWarmUp } from "../decision/judgeWarmUp.ts";
import type { StrategyEvaluation } from "../decision/setupEvaluation.ts";
import { driftSince } from "../drift/zeroLife.ts";
import type { AgeFact, RunFact } from "./slipFacts.ts";

/** Deviations of every feature along every axis on the parts in the order in which they were made; whether they alternate shows if each was corrected for. */
export function runsOf({ madeParts: { measured, partScatter } }: Pick<Setup, "madeParts">): RunFact[] {
  const runs = new Map<string, { readonly element: string; readonly axis: Axis; readonly deviations: number[] }>();
  for (const { element, deviation } of measured)
    axes.forEach((axis, i) => {
      const value = deviation[i as 0 | 1 | 2];
      if (value === undefined) return;
      const key = JSON.stringify([element, axis]);
      const run = runs.get(key) ?? { element, axis, deviations: [] };
      run.deviations.push(value);
      runs.set(key, run);
    });
  return [...runs.values()].map(({ element, axis, deviations }) => ({
    at: "madeParts.measured",
    characteristic: `${element}, ${axis}`,
    deviations,
    standardDeviation: partScatter ?? 0,
    corrected: "after each",
  }));
}

/** How old the zero was when the machine's warming up was read last, by the curve through these readings; nothing is known of later. */
export function agesOf(setup: Setup, inUse: StrategyEvaluation | undefined): AgeFact[] {
  const judged = judgeWarmUp(setup, inUse);
  if (!judged?.ok || !judged.value.life.ok) return [];
  const { axis, curve, until, life } = judged.value;
  const { setAt, allowed } = life.value;
  if (!(until > setAt)) return [];
  const { drift, standardUncertainty } = driftSince(curve, setAt, until);
  return [
    {
      at: "warmUp.setAt",
      axis,
      minutes: until - setAt,
      drift: { value: drift, standardUncertainty, degreesOfFreedom: curve.degreesOfFreedom },
      allowed,
    },
  ];
}
