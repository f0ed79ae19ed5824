import { type Axis, axes } from "../base/vector.ts";
import { formatFixed } from "../uncertainty/roundForReport.ts";
import { type Controller, millimetresIn } from "./enteredOffset.ts";
import type { RegisterDigits } from "./offsetText.ts";
import type { ReadOffset, ReadOffsets } from "./readOffsetText.ts";

/** One axis of one register where table and text are not the same. */
export interface OffsetDifference {
  readonly register: string;
  readonly axis: Axis;
  /** As typed, in the unit of the controller; undefined where the table has nothing, or does not know it. */
  readonly table: string | undefined;
  /** As the text has it, in its own unit; undefined where it has nothing. */
  readonly read: string | undefined;
  /** Text less table, mm; undefined where one of them is missing. */
  readonly difference: number | undefined;
  /** What the difference looks like; empty where it looks like nothing known. */
  readonly looksLike: string;
}

/** What a text read back has in the registers, against what should be there. */
export interface OffsetComparison {
  readonly differences: readonly OffsetDifference[];
  /** How many values are the same to the last digit that both have. */
  readonly agreeing: number;
  /** How many of these the text tells with fewer decimals than the table, or in another unit. */
  readonly coarse: number;
}

/** Every register and axis in which a text that was read back differs from the table. */
export function compareOffsets(
  table: readonly RegisterDigits[],
  { form, unit, offsets }: ReadOffsets,
  controller: Controller,
): OffsetComparison {
  const differences: OffsetDifference[] = [];
  let agreeing = 0;
  let coarse = 0;
  // A block states numbers for a control, which rounds nothing that is not written.
  const shown = form === "blocks" && unit === controller.controllerUnit ? controller.decimals : shownDecimals(offsets);
  const names = [...new Set([...table.map(({ register }) => register), ...offsets.map(({ register }) => register)])];
  for (const register of names) {
    for (const axis of axes) {
      const typed = table.find((each) => each.register === register)?.digits.find((digits) => digits.axis === axis)?.text;
      const read = offsets.find((each) => each.register === register && each.axis === axis);
      if (typed === undefined && read === undefined) continue;
      const match = typed === undefined || read === undefined ? "different" : matchOf(typed, read, shown, unit, controller);
      if (match === "different") differences.push(differenceOf(register, axis, typed, read, table, controller));
      else agreeing++;
      if (match === "coarse") coarse++;
    }
  }
  return { differences, agreeing, coarse };
}

/** Displays show every value to the same decimals. A text that does not has left zeros out, and none of its numbers is rounded to fewer than its longest. */
function shownDecimals(offsets: readonly ReadOffset[]): number {
  return Math.max(0, ...offsets.map(({ decimals }) => decimals ?? 0));
}

function matchOf(
  typed: string,
  read: ReadOffset,
  shown: number,
  unit: "mm" | "inch",
  controller: Controller,
): "same" | "coarse" | "different" {
  const lastTyped = 10 ** -controller.decimals * millimetresIn(controller.controllerUnit);
  const isWithin = (rounding: number) => Math.abs(read.value - millimetresOf(typed, controller)) <= rounding * (1 + 1e-9);
  const isSameUnit = unit === controller.controllerUnit;
  // A file's number may carry the noise of a conversion, and still names the digits that were typed.
  if (read.decimals === undefined) return isWithin(lastTyped / 2) ? (isSameUnit ? "same" : "coarse") : "different";
  // Each was rounded in its own unit: they may be half of both last digits apart.
  if (!isSameUnit) return isWithin((10 ** -shown * millimetresIn(unit) + lastTyped) / 2) ? "coarse" : "different";
  if (shown >= controller.decimals) return Number(read.text) === Number(typed) ? "same" : "different";
  return formatFixed(Number(typed), shown) === formatFixed(Number(read.text), shown) ? "coarse" : "different";
}

function millimetresOf(typed: string, { controllerUnit }: Controller): number {
  return Number(typed) * millimetresIn(controllerUnit);
}

function differenceOf(
  register: string,
  axis: Axis,
  typed: string | undefined,
  read: ReadOffset | undefined,
  table: readonly RegisterDigits[],
  controller: Controller,
): OffsetDifference {
  const known = typed === undefined ? undefined : millimetresOf(typed, controller);
  const difference = known === undefined || read === undefined ? undefined : read.value - known;
  return {
    register,
    axis,
    table: typed,
    read: read?.text,
    difference,
    looksLike: read === undefined ? "" : likeness(known, read, register, table, controller),
  };
}

function likeness(
  known: number | undefined,
  { value, axis }: ReadOffset,
  register: string,
  table: readonly RegisterDigits[],
  controller: Controller,
): string {
  const step = 10 ** -controller.decimals * millimetresIn(controller.controllerUnit);
  const isNear = (a: number, b: number, within = step) => Math.abs(a - b) <= within * (1 + 1e-9);
  if (known !== undefined && known !== 0) {
    if (isNear(value, -known)) return "the other sign";
    if (isNear(value, 2 * known, 2 * step)) return "twice the value";
    // Rounded in the wrong unit, the digits differ by up to a step of it.
    if (isNear(value, known * 25.4, 25.4 * step)) return "inches taken for millimetres, or the other way round: 25.4 times the value";
    if (isNear(value, known / 25.4)) return "inches taken for millimetres, or the other way round: the value divided by 25.4";
  }
  const other = table.find(
    (each) =>
      each.register !== register &&
      each.digits.some((digits) => digits.axis === axis && isNear(millimetresOf(digits.text, controller), value)),
  );
  return other === undefined ? "" : `the value of ${other.register}`;
}
