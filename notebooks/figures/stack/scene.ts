import { ticks } from "d3";
import { type Stack, toleranceWidth } from "../../../lib/tolerance/stack.ts";
import type { UnitWriter } from "../displayUnit.ts";
import type { Sheet } from "../figure.ts";
import { linearScale } from "../linearScale.ts";

/** A stack and the axis that everything of it is drawn on. */
export interface Scene {
  readonly stack: Stack;
  readonly sheet: Sheet;
  readonly writer: UnitWriter;
  readonly x: (value: number) => number;
  /** What is drawn of the axis, in the unit of the stack. */
  readonly from: number;
  readonly to: number;
  /** At round numbers of the shown unit. */
  readonly ticks: readonly number[];
}

const side = 14;
export const curveTop = 24;
export const axisY = 104;
export const firstRow = axisY + 36;
export const rowHeight = 40;
export const barHeight = 14;
/** What lies farther outside than this many widths of the tolerance is cut off at a break. */
const farthest = 2;

export function sceneOf(stack: Stack, sheet: Sheet, writer: UnitWriter): Scene {
  const { limits, worstCase, rootSumSquare, deviation, distribution } = stack;
  const width = toleranceWidth(limits);
  const highest = Number.isFinite(limits.upper) ? limits.upper : 0;
  const oneSided = stack.isRound;
  const wantedLower = Math.min(limits.lower, worstCase.lower, rootSumSquare.lower, deviation, oneSided ? 0 : distribution.quantile(0.001));
  const wantedUpper = Math.max(highest, worstCase.upper, rootSumSquare.upper, deviation, distribution.quantile(0.999));
  const lower = oneSided ? 0 : Math.max(limits.lower - farthest * width, wantedLower);
  const upper = Math.min(highest + farthest * width, wantedUpper);
  const margin = 0.04 * (upper - lower);
  const from = oneSided ? 0 : lower - margin;
  const to = upper + margin;
  return {
    stack,
    sheet,
    writer,
    from,
    to,
    x: linearScale([from, to], [side, sheet.width - side]),
    ticks: ticks(from * writer.factor, to * writer.factor, Math.max(3, Math.floor(sheet.width / 90))),
  };
}
