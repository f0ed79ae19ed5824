import { oneLine } from "../base/oneLine.ts";
import { failure, type Outcome, success } from "../base/outcome.ts";
import { axes } from "../base/vector.ts";
import type { StrategyEvaluation } from "../decision/setupEvaluation.ts";
import type { Machine } from "../equipment/equipment.ts";
import { type EnteredOffset, enteredOffset, millimetresIn } from "../offsets/enteredOffset.ts";
import type { MovedZero } from "../offsets/moveZero.ts";
import { expandedUncertainty } from "../record/expandedUncertainty.ts";
import type { Budget } from "../uncertainty/budget.ts";
import { formatFixed, formatWithUncertainty } from "../uncertainty/roundForReport.ts";
import { blankEntries } from "./blankEntries.ts";
import type { OffsetEntry } from "./setupDocument.ts";

export interface TakeOverOptions {
  /** Name of the new row. */
  readonly id: string;
  readonly when: string;
  readonly who: string;
  /** How the doubt is written down: `standard` unless given, with its degrees of freedom where they are few; or expanded, with its coverage factor. */
  readonly doubt?: "standard" | "expanded";
}

/**
 * A row of the log with the zero of a strategy, as it is typed into the register: the digits, their doubt, and in words where they come from. What
 * the digits are off the zero by rounding is not corrected any more, and goes into the doubt: u² + d² (JCGM 100:2008, F.2.4.5).
 */
export function takeOverZero(evaluation: StrategyEvaluation, options: TakeOverOptions): Outcome<OffsetEntry> {
  const { id: strategy, zero, offset, solution } = evaluation;
  if (!offset.ok) return offset;
  return rowOf(evaluation, zero, offset.value, `zero by "${strategy}", from ${touchesOf(solution.strategy.touches)}`, options);
}

/**
 * The same with a zero that was moved to another point of the part without touching again: what the way costs is in its doubt.
 *
 * @param machine with the register that it is for
 * @param places of the point, as typed
 */
export function takeOverMovedZero(
  evaluation: StrategyEvaluation,
  moved: MovedZero,
  { machine, places, ...options }: TakeOverOptions & { readonly machine: Machine; readonly places: string },
): Outcome<OffsetEntry> {
  const zero = moved.axes.map((axis) => (axis.ok ? success(axis.value.after) : axis));
  const offset = enteredOffset(
    zero.map((axis) => (axis.ok ? axis.value.value : undefined)),
    machine,
  );
  if (!offset.ok) return offset;
  const turn = moved.turn === "not looked at" && moved.distance > 0 ? "; nobody looked at the turn, which is not in the doubt" : "";
  const why = `zero by "${evaluation.id}" moved to ${oneLine(places.trim())} without touching again${turn}`;
  return rowOf(evaluation, zero, offset.value, why, options);
}

function rowOf(
  { rotation, solution }: StrategyEvaluation,
  zero: readonly Outcome<Budget>[],
  { register, unit, digits }: EnteredOffset,
  why: string,
  { id, when, who, doubt = "standard" }: TakeOverOptions,
): Outcome<OffsetEntry> {
  if (solution.appliesRotation && !rotation.ok) return failure(...rotation.problems);
  const along = (axis: (typeof axes)[number]): string => {
    const typed = digits.find((each) => each.axis === axis);
    const found = zero[axes.indexOf(axis)];
    if (typed === undefined || !found?.ok) return "";
    const factor = millimetresIn(unit);
    const rounding = Number(typed.text) - found.value.value / factor;
    return written(
      typed.text,
      Math.hypot(found.value.standardUncertainty / factor, rounding),
      found.value,
      unit === "inch" ? "in" : "mm",
      doubt,
    );
  };
  const turn = solution.appliesRotation && rotation.ok ? turnText(rotation.value, doubt) : "";
  return success({
    ...blankEntries.offset(id),
    kind: "measured zero",
    register,
    x: along("X"),
    y: along("Y"),
    z: along("Z"),
    turn,
    ...(solution.strategy.touches.length > 0 && { rests: "on the touches here" as const }),
    why,
    when,
    who,
  });
}

function touchesOf(touches: readonly string[]): string {
  return touches.length === 0 ? "the fixture" : `the touches ${touches.join(", ")}`;
}

/** Decimals of a turn in degrees that a drawing's corner at 1 m feels as less than 0.2 µm. */
const turnDecimals = 5;

function turnText(budget: Budget, doubt: "standard" | "expanded"): string {
  const degrees = 180 / Math.PI;
  return written(formatFixed(budget.value * degrees, turnDecimals), budget.standardUncertainty * degrees, budget, "deg", doubt);
}

/** `-412.607 ± 0.0021 mm`, with what makes the doubt whole behind it; rounded up, so that it never says less than was found. */
function written(digits: string, standardUncertainty: number, budget: Budget, unit: string, doubt: "standard" | "expanded"): string {
  if (standardUncertainty === 0) return `${digits} ${unit}`;
  const { coverageFactor, degreesOfFreedom } = expandedUncertainty(budget);
  const freedom = degreesOfFreedom < mostDegrees ? ` (df ${Math.max(1, Math.floor(degreesOfFreedom))})` : "";
  // The factor as it is written, so that both together give the standard uncertainty back.
  const factor = coverageFactor.toFixed(2);
  const size = doubt === "expanded" ? standardUncertainty * Number(factor) : standardUncertainty;
  const text = formatWithUncertainty(0, size, { direction: "up" }).standardUncertainty;
  return `${digits} ± ${text} ${unit}${doubt === "expanded" ? ` (k = ${factor})` : ""}${freedom}`;
}

/** From here on Student's factor is that of a well known doubt to two decimals (JCGM 100:2008, table G.2). */
const mostDegrees = 1000;
