import { failure, type Outcome, type Problem, success } from "../base/outcome.ts";
import { millimetresPerInch } from "../base/quantity.ts";
import { type Axis, axes } from "../base/vector.ts";
import { type Machine, type Register, registers } from "../equipment/equipment.ts";
import { formatFixed } from "../uncertainty/roundForReport.ts";

/** An offset as it is typed into a register. */
export interface EnteredOffset {
  readonly register: Register;
  readonly unit: "mm" | "inch";
  /** Digits to type, per determined axis, in the controller's unit. */
  readonly digits: readonly AxisDigits[];
  /** The same values in mm, rounded as typed. */
  readonly values: readonly { readonly axis: Axis; readonly value: number }[];
  /** A `G10 L2` line after the words for unit and absolute distances (RS274/NGC, NISTIR 6556, 3.5.5, 3.5.7 and 3.5.17). */
  readonly lines: readonly string[];
}

export interface AxisDigits {
  readonly axis: Axis;
  readonly text: string;
}

/** How a controller takes an offset. */
export type Controller = Pick<Machine, "controllerUnit" | "decimals" | "offsetStep">;

/**
 * The offset to type, rounded to the register's decimals. `G10 L2` sets only the
 * axes that it names; a turn has no word in RS274/NGC version 3 and is not in
 * the line.
 *
 * @param zero machine coordinates of part zero, mm; undefined where not determined
 */
export function enteredOffset(zero: readonly (number | undefined)[], machine: Machine): Outcome<EnteredOffset> {
  const digits = axes.flatMap((axis, i) => {
    const value = zero[i];
    return value === undefined ? [] : [{ axis, text: digitsOf(value, machine) }];
  });
  if (digits.length === 0) return failure(nothingToType);
  const { register, controllerUnit } = machine;
  return success({
    register,
    unit: controllerUnit,
    digits,
    values: digits.map(({ axis, text }) => ({ axis, value: Number(text) * millimetresIn(controllerUnit) })),
    lines: [modesLine(controllerUnit), blockOf(registers.indexOf(register) + 1, digits)],
  });
}

/** A length as it is typed into a register, in the controller's unit: rounded to the step of its offsets and to their decimals. */
export function digitsOf(millimetres: number, { controllerUnit, decimals, offsetStep }: Controller): string {
  const value = millimetres / millimetresIn(controllerUnit);
  const step = (offsetStep ?? 0) / millimetresIn(controllerUnit);
  return formatFixed(step > 0 ? Math.round(value / step) * step : value, decimals);
}

export function millimetresIn(unit: "mm" | "inch"): number {
  return unit === "inch" ? millimetresPerInch : 1;
}

/** The words for unit and absolute distances (RS274/NGC, NISTIR 6556, 3.5.7 and 3.5.17), which go before any offset. */
export function modesLine(unit: "mm" | "inch"): string {
  return `${unit === "inch" ? "G20" : "G21"} G90`;
}

/** A line that sets a register to these digits (RS274/NGC, NISTIR 6556, 3.5.5). */
export function blockOf(register: number, digits: readonly AxisDigits[]): string {
  return `G10 L2 P${register} ${digits.map(({ axis, text }) => `${axis}${text}`).join(" ")}`;
}

const nothingToType: Problem = {
  at: "",
  what: "no axis of the zero is determined, so there is no offset to type",
  remedy: "add a touch to the strategy",
};
