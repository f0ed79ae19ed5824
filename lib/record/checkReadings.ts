import { failure, type Outcome, type Problem, success } from "../base/outcome.ts";
import type { SetupEvaluation, StrategyEvaluation } from "../decision/setupEvaluation.ts";
import { expandedUncertainty } from "./expandedUncertainty.ts";

type Prediction = SetupEvaluation["predictions"][number];

/** What the display must show when a face is touched once more. */
export interface CheckReading {
  readonly prediction: Prediction;
  /** Machine coordinate, mm, with the limits of its expanded uncertainty: a reading outside disagrees with the record. */
  readonly machine: CheckLimits;
  /** The same with the offset as typed in the register active, and no tool length or shift besides. */
  readonly work: Outcome<CheckLimits>;
}

export interface CheckLimits {
  readonly value: number;
  readonly lower: number;
  readonly upper: number;
}

/** Predicted readings of every touched face, in machine coordinates and in those of a strategy's offset. */
export function checkReadings({ predictions }: SetupEvaluation, strategy: StrategyEvaluation | undefined): CheckReading[] {
  return predictions.map((prediction) => {
    const { value } = prediction.budget;
    const half = expandedUncertainty(prediction.budget).expandedUncertainty;
    const about = (centre: number): CheckLimits => ({ value: centre, lower: centre - half, upper: centre + half });
    const offset = offsetAlong(prediction.axis, strategy);
    return { prediction, machine: about(value), work: offset.ok ? success(about(value - offset.value)) : offset };
  });
}

/** The typed offset along an axis, mm. */
function offsetAlong(axis: string, strategy: StrategyEvaluation | undefined): Outcome<number> {
  if (strategy === undefined) return failure(noStrategy);
  const { id, solution, offset } = strategy;
  const at = `strategies.${id}`;
  if (solution.appliesRotation && axis !== "Z") {
    return failure({ at, what: `"${id}" turns the coordinates, so a reading along ${axis} alone has no work coordinate` });
  }
  const typed = offset.ok ? offset.value.values.find((entry) => entry.axis === axis) : undefined;
  return typed ? success(typed.value) : failure({ at, what: `"${id}" sets no offset along ${axis}` });
}

const noStrategy: Problem = {
  at: "chosen",
  what: "no strategy is in use, so there are no work coordinates",
  remedy: "choose a strategy that can be solved",
};
