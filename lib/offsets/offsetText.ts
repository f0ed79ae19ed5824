import { failure, type Outcome, type Problem, success } from "../base/outcome.ts";
import { axes } from "../base/vector.ts";
import { formatFixed } from "../uncertainty/roundForReport.ts";
import { type AxisDigits, blockOf, type Controller, digitsOf, modesLine } from "./enteredOffset.ts";
import { readRegister } from "./offsetRegister.ts";
import type { OffsetsInForce, RegisterInForce } from "./offsetTable.ts";

/** What is written into the registers: what they hold beside the shifts, or the whole sum for a controller that has no shifts. */
export const writtenOffsets = ["register", "sum"] as const;
export type WrittenOffsets = (typeof writtenOffsets)[number];

export interface OffsetTextOptions {
  readonly controller: Controller;
  /** `register` unless given. The shifts then stay where the controller keeps them; what is written twice would count twice. */
  readonly written?: WrittenOffsets;
  /** Told in a comment. */
  readonly job: string;
  /** Told in a comment, as it is; this library knows no clock. */
  readonly time: string;
}

/** The digits of one register, as they are typed. */
export interface RegisterDigits {
  readonly register: string;
  /** The P word. */
  readonly number: number;
  readonly digits: readonly AxisDigits[];
  /** Axes whose value is not known, and why. */
  readonly unknown: readonly Problem[];
  /** What has no word in a block: a turn, a shift that is kept elsewhere. */
  readonly remarks: readonly string[];
}

/** The digits of every register of the table, rounded as the controller takes them. */
export function registerDigits(
  { registers }: OffsetsInForce,
  { controller, written = "register" }: Pick<OffsetTextOptions, "controller" | "written">,
): RegisterDigits[] {
  return registers.map((register) => {
    const linear = register.coordinates.slice(0, axes.length).map((each, i) => ({
      axis: axes[i] as (typeof axes)[number],
      value: written === "sum" ? each.sum : each.held,
    }));
    return {
      register: register.register,
      number: readRegister(register.register)?.number ?? 0,
      digits: linear.flatMap(({ axis, value }) => (value.ok ? [{ axis, text: digitsOf(value.value.value, controller) }] : [])),
      unknown: linear.flatMap(({ value }) => (value.ok ? [] : value.problems)),
      remarks: remarksOn(register, written, controller),
    };
  });
}

/**
 * The table as controller text (RS274/NGC, NISTIR 6556, 3.5.5): comments with the job and the time, the words for unit and absolute distances, one
 * `G10 L2` line for each register. Axes that are not known are left out, which leaves them as they are in the machine.
 */
export function offsetText(table: OffsetsInForce, options: OffsetTextOptions): Outcome<readonly string[]> {
  const { controller, written = "register", job, time } = options;
  const all = registerDigits(table, options);
  const known = all.filter(({ digits }) => digits.length > 0);
  if (known.length === 0)
    return failure(
      ...all
        .flatMap(({ unknown }) => unknown)
        .slice(0, 1)
        .concat(all.length === 0 ? nothingLogged : []),
    );
  const beyond = known.some(({ number }) => number > 9);
  return success([
    comment(job === "" ? "setup without a title" : job),
    ...(time === "" ? [] : [comment(time)]),
    comment(
      written === "sum"
        ? "sums in force: shifts are in these values and must be off at the machine"
        : "without shifts, which stay where the machine keeps them",
    ),
    ...(beyond ? [comment("P10 and further are not in RS274/NGC version 3: see the machine builder's manual")] : []),
    modesLine(controller.controllerUnit),
    ...known.flatMap(({ register, number, digits, remarks }) => [
      ...remarks.map((remark) => comment(`${register}: ${remark}`)),
      blockOf(number, digits),
    ]),
  ]);
}

function remarksOn({ coordinates, nest }: RegisterInForce, written: WrittenOffsets, controller: Controller): string[] {
  const unit = controller.controllerUnit === "inch" ? "in" : "mm";
  const shifted = (of: "localShift" | "globalShift") =>
    coordinates
      .slice(0, axes.length)
      .flatMap(({ coordinate, [of]: shift }) =>
        shift === undefined || shift.budget.value === 0 ? [] : [`${coordinate}${digitsOf(shift.budget.value, controller)}`],
      );
  const told = (words: string, list: readonly string[]) =>
    list.length === 0 ? [] : [`${words} ${list.join(" ")} ${unit} is ${written === "sum" ? "in" : "not in"} these values`];
  const turn = coordinates[3][written === "sum" ? "sum" : "held"];
  return [
    ...told(nest === "" ? "a local shift of" : `the local shift for ${nest} of`, shifted("localShift")),
    ...told("a global shift of", shifted("globalShift")),
    ...(turn.ok && turn.value.value !== 0
      ? [`turned by ${formatFixed((turn.value.value * 180) / Math.PI, 4)} degrees, which has no word in RS274/NGC version 3`]
      : []),
  ];
}

/** Most characters of a line (RS274/NGC, NISTIR 6556, 3.3; from memory). */
const longestLine = 256;

/**
 * A comment in round brackets (NISTIR 6556, 3.3.4): ASCII, without brackets inside, and never one that begins with MSG, which a controller would show as a
 * message.
 */
function comment(text: string): string {
  const plain = text
    .normalize("NFKD")
    .replace(/\p{M}/gu, "")
    .replace(/[([{]/gu, "[")
    .replace(/[)\]}]/gu, "]")
    .replace(/[%\s]+/gu, " ")
    .replace(/[^\x20-\x7e]/gu, "?")
    .trim()
    .replace(/^msg\s*,/iu, "message:");
  return `(${plain.slice(0, longestLine - 2)})`;
}

const nothingLogged: Problem = {
  at: "offsets",
  what: "nothing is logged of the offsets, so there is nothing to write",
  remedy: "log a measured zero",
};
