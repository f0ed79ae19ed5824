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
  readonly digits: readonly { readonly axis: Axis; readonly text: string }[];
  /** The same values in mm, rounded as typed. */
  readonly values: readonly { readonly axis: Axis; readonly value: number }[];
  /** A `G10 L2` line after the words for unit and absolute distances (RS274/NGC, NISTIR 6556, 3.5.5 and 3.5.9, 3.5.17). */
  readonly lines: readonly string[];
}

/**
 * The offset to type, rounded to the register's decimals. `G10 L2` sets only the
 * axes that it names; a turn has no word in RS274/NGC version 3 and is not in
 * the line.
 *
 * @param zero machine coordinates of part zero, mm; undefined where not determined
 */
export function enteredOffset(
  zero: readonly (number | undefined)[],
  { register, controllerUnit, decimals, offsetStep }: Machine,
): Outcome<EnteredOffset> {
  const millimetres = controllerUnit === "inch" ? millimetresPerInch : 1;
  const step = offsetStep / millimetres;
  const digits = axes.flatMap((axis, i) => {
    const value = zero[i];
    if (value === undefined) return [];
    const typed = step > 0 ? Math.round(value / millimetres / step) * step : value / millimetres;
    return [{ axis, text: formatFixed(typed, decimals) }];
  });
  if (digits.length === 0) return failure(nothingToType);
  const words = digits.map(({ axis, text }) => `${axis}${text}`).join(" ");
  return success({
    register,
    unit: controllerUnit,
    digits,
    values: digits.map(({ axis, text }) => ({ axis, value: Number(text) * millimetres })),
    lines: [`${controllerUnit === "inch" ? "G20" : "G21"} G90`, `G10 L2 P${registers.indexOf(register) + 1} ${words}`],
  });
}

const nothingToType: Problem = {
  at: "",
  what: "no axis of the zero is determined, so there is no offset to type",
  remedy: "add a touch to the strategy",
};
