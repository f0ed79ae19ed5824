import { failure, type Outcome, success } from "../base/outcome.ts";
import { type Axis, axes } from "../base/vector.ts";
import type { Seated } from "../datum/seated.ts";
import { frameTurns } from "../frame/frameTurns.ts";
import type { FrameSolution } from "../frame/solveFrame.ts";
import { type Budget, budgetsOf } from "../uncertainty/budget.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";

/** Where this part is by all touches together; a problem where they do not determine it. */
export interface PartFrame {
  /** X, Y, Z of the drawing's origin in the machine, mm. */
  readonly origin: readonly [Outcome<Budget>, Outcome<Budget>, Outcome<Budget>];
  /** About Z, radians. */
  readonly rotation: Outcome<Budget>;
}

/** @param seated how the part lies in that frame, where it is the fixture's */
export function partFrame(frame: FrameSolution, seated: Seated | undefined): PartFrame {
  const off = seated?.displacement([0, 0, 0]);
  const plus = (value: Uncertain, moved: Uncertain | undefined) => (moved === undefined ? value : value.plus(moved));
  const origin = frame.origin.map((value, axis) => plus(value, off?.[axis]));
  const [x, y, z, rotation] = budgetsOf([...origin, plus(frame.rotation, seated?.turn)]) as [Budget, Budget, Budget, Budget];
  const isHeld = (axis: 0 | 1 | 2) => off === undefined || off[axis] !== undefined;
  const along = (axis: 0 | 1 | 2, budget: Budget): Outcome<Budget> =>
    frame.determined[axis] && isHeld(axis) ? success(budget) : failure(notFixed(axes[axis] as Axis));
  const turned = frameTurns(frame) && frame.determined[3] && (seated === undefined || seated.turn !== undefined);
  return { origin: [along(0, x), along(1, y), along(2, z)], rotation: turned ? success(rotation) : failure(notTurned) };
}

function notFixed(axis: Axis) {
  return { at: "touches", what: `no touch fixes this part along ${axis}`, remedy: `add a touch that meets the part along ${axis}` };
}

const notTurned = {
  at: "touches",
  what: "the touches do not tell how this part is turned about Z, so it is taken as square to the machine",
  remedy: "touch one face at two places and note where",
};
