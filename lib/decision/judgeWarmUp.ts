import { failure, type Outcome, success, within } from "../base/outcome.ts";
import type { Axis } from "../base/vector.ts";
import { shareAlong } from "../datum/drawingAxes.ts";
import type { Setup } from "../datum/setup.ts";
import { fitWarmUp, type WarmUpCurve } from "../drift/warmUpCurve.ts";
import { assuredBefore, bestBefore, reZeroPlan, warmEnoughAfter, type ZeroSpan } from "../drift/zeroLife.ts";
import type { Characteristic } from "../part/part.ts";
import { toleranceWidth } from "../tolerance/stack.ts";
import type { StrategyEvaluation } from "./setupEvaluation.ts";

/** How a zero drifts while the machine warms, and how long it lasts. */
export interface WarmUpEvaluation {
  readonly axis: Axis;
  readonly curve: WarmUpCurve;
  /** Until when the readings reach, minutes. */
  readonly until: number;
  readonly life: Outcome<ZeroLife>;
}

export interface ZeroLife {
  /** How far a zero may drift, mm. */
  readonly allowed: number;
  /** The characteristic that leaves no more; undefined where it is stated. */
  readonly tightest: string | undefined;
  /** Minutes after the start at which the zero in force was set. */
  readonly setAt: number;
  /** Until when it has drifted by what is allowed, minutes after the start: by the curve, and by the curve with its doubt (95 %). `Infinity` for good. */
  readonly bestBefore: number;
  readonly assuredBefore: number;
  /** After so many minutes of warm-up one zero lasts. */
  readonly warmEnoughAfter: number;
  /** When to set it anew from a cold start; undefined where the time of a part is not stated. */
  readonly plan: readonly ZeroSpan[] | undefined;
}

/** A day: nobody plans farther. */
const horizon = 1440;

/** @returns undefined where nothing was read */
export function judgeWarmUp(setup: Setup, strategy: StrategyEvaluation | undefined): Outcome<WarmUpEvaluation> | undefined {
  const { axis, readings, start, allowed, setAt, cycle } = setup.warmUp;
  if (readings.length === 0) return undefined;
  const curve = fitWarmUp(readings, start);
  if (!curve.ok) return failure(...curve.problems.map((problem) => within("warmUp.readings", problem)));
  const until = Math.max(...readings.map(({ minutes }) => minutes));
  const tightest = allowed === undefined ? tightestAlong(axis, setup, strategy) : undefined;
  const room = allowed ?? tightest?.room;
  if (room === undefined || !(room > 0))
    return success({ axis, curve: curve.value, until, life: failure(noRoom(axis, tightest?.characteristic)) });
  return success({
    axis,
    curve: curve.value,
    until,
    life: success({
      allowed: room,
      tightest: tightest?.characteristic,
      setAt,
      bestBefore: bestBefore(curve.value, setAt, room),
      assuredBefore: assuredBefore(curve.value, setAt, room, until),
      warmEnoughAfter: warmEnoughAfter(curve.value, room),
      plan: cycle === undefined ? undefined : reZeroPlan(curve.value, room, cycle, horizon),
    }),
  });
}

function noRoom(axis: Axis, characteristic: string | undefined) {
  return {
    at: "warmUp.allowed",
    what:
      characteristic === undefined
        ? `no characteristic of this part is known along ${axis}, so it is not known how far the zero may drift`
        : `"${characteristic}" leaves nothing for a drift: its root sum square uses all of its tolerance`,
    remedy: "state how far a zero may drift",
  };
}

/**
 * The characteristic that leaves the least for a drift along an axis of the machine: half its tolerance less what the root sum square of the batch
 * uses, by how much of the drift goes along it where the programme is turned with the part. The distance of two cuts of this setup is none of
 * them: both follow the zero.
 */
function tightestAlong(axis: Axis, { part }: Setup, strategy: StrategyEvaluation | undefined) {
  const isCutHere = (id: string) => part.elements.some((element) => element.id === id && element.made === "here");
  const shareOf = (characteristic: Characteristic) => {
    const { kind } = characteristic;
    if (isCutHere(characteristic.of) === ("from" in characteristic && isCutHere(characteristic.from))) return 0;
    if ("axis" in characteristic) return shareAlong(characteristic.axis, axis, strategy?.solution);
    return axis !== "Z" && (kind === "position" || kind === "coaxiality") ? 1 : 0;
  };
  const rooms = part.characteristics.flatMap((characteristic, i) => {
    const stack = strategy?.batch.stacks[i];
    const share = shareOf(characteristic);
    if (share === 0 || !stack?.ok) return [];
    const { limits, isRound: round, shares } = stack.value;
    const half = round ? limits.upper / 2 : toleranceWidth(limits) / 2;
    return [{ characteristic: characteristic.id, room: (half * (1 - shares.rootSumSquare)) / share }];
  });
  return rooms.reduce<(typeof rooms)[number] | undefined>(
    (least, next) => (least === undefined || next.room < least.room ? next : least),
    undefined,
  );
}
