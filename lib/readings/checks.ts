import type { Moment } from "../base/moment.ts";
import type { Mm } from "../base/quantity.ts";
import type { AxisDirection, Vector } from "../base/vector.ts";
import type { Touch } from "./touch.ts";

/** What may happen between setting a zero and working with it; `zero set` is when it was set. */
export const eventKinds = [
  "zero set",
  "reference run",
  "power off",
  "crash",
  "fixture moved",
  "tool changed",
  "new stylus",
  "hours passed",
] as const;
export type EventKind = (typeof eventKinds)[number];

/** A touch of a face to see whether the zero holds. Machine coordinates, mm. */
export interface CheckTouch extends Omit<Touch, "positions"> {
  readonly travelling: AxisDirection;
  /** Empty while only the prediction is asked for. */
  readonly positions: Touch["positions"];
  /** Where the tool stands on the other axes, where it is known. */
  readonly aside: readonly [x: Mm | undefined, y: Mm | undefined, z: Mm | undefined];
  readonly by: string;
  readonly when: Moment | undefined;
}

/** A place above the part where the display is looked at. */
export interface CheckMove {
  readonly id: string;
  readonly tool: string;
  /** In the drawing's frame, mm. */
  readonly place: Vector;
  /** Of the tip above it, mm, above 0. */
  readonly clearance: Mm;
}

export interface SetupEvent {
  readonly id: string;
  readonly kind: EventKind;
  readonly when: Moment;
  /** Which tool was changed, or got a new stylus; empty where that does not matter. */
  readonly tool: string;
}
