import type { Mm } from "../base/quantity.ts";
import type { Vector } from "../base/vector.ts";
import type { Travel } from "../equipment/equipment.ts";

/** A touch that is still to be taken. */
export interface PlannedTouch extends Omit<Touch, "positions" | "resolution" | "readIn"> {
  /** Where it is to be taken, machine axes, as far as that is noted. */
  readonly place: Touch["positions"][number];
}

/** Readings of one touch, understood: machine coordinates, mm. */
export interface Touch {
  readonly id: string;
  readonly element: string;
  readonly tool: string;
  readonly spacer: string | undefined;
  readonly travelling: Travel;
  /** Spindle turned half round against its calibration, so that an eccentric tip points the other way. */
  readonly turnedHalfRound: boolean;
  /** Swept indicator only: what it read more on the + side than on the - side, along X and along Y; 0 when it ran true. */
  readonly sweepTotal: readonly [x: Mm, y: Mm];
  /** Repeats of the whole position; a coordinate that was not noted is undefined. At least one. */
  readonly positions: readonly (readonly [x: Mm | undefined, y: Mm | undefined, z: Mm | undefined])[];
  /** Where the zero of the work frame stands in which they were read, machine axes, mm; left out where the machine's own coordinates were read. */
  readonly readIn?: Vector;
  /** The least step that the digits of its readings can tell, mm; undefined where they come out of a formula. */
  readonly resolution?: Mm | undefined;
}
