import type { Mm } from "../base/quantity.ts";
import type { AxisDirection } from "../base/vector.ts";
import type { Limits } from "../part/part.ts";
import type { Evidence } from "../uncertainty/source.ts";

/** A coordinate in the drawing's frame per axis, where stated. */
export type StatedPlace = readonly [x: Mm | undefined, y: Mm | undefined, z: Mm | undefined];

export const locatorKinds = ["pad", "stop", "fixed jaw", "round pin", "diamond pin", "V-block", "tooling hole"] as const;
export type LocatorKind = (typeof locatorKinds)[number];

/** What the part is set against; a tooling hole holds nothing and is there to be touched. Lengths in mm, half-widths and standard uncertainties likewise. */
export interface Locator {
  readonly id: string;
  readonly kind: LocatorKind;
  /** The part's element that meets it; empty for a bare place. */
  readonly element: string;
  readonly at: StatedPlace;
  /** Out of the locator into the part; of a V-block the direction into which it opens, of a diamond pin the one that it holds. */
  readonly facing: AxisDirection | undefined;
  /** Fixed jaw: the length over which the part bears on it. */
  readonly span: Mm;
  /** V-block: the angle between its faces, radians. */
  readonly angle: number;
  /** Pins and tooling holes: what a tool that touches them meets; undefined where nothing is stated. */
  readonly round: { readonly diameter: Mm; readonly limits: Limits } | undefined;
  /** How far the locator is known to stand from where it should, along its facing. */
  readonly height: Mm;
  /** Half-width of what is not known of that; of a pin along X and along Y. */
  readonly heightError: Mm;
  readonly evidence: Evidence;
  /** Standard uncertainty with which a part comes to rest on it anew. */
  readonly seat: Mm;
  /** The thickest chip or burr that may lie between it and the part. */
  readonly debris: Mm;
  /** Pins: how far the middle of the hole may stand from the middle of the pin. */
  readonly clearance: PinClearance;
}

/** Half of what a hole is larger than its pin, mm. */
export interface PinClearance {
  /** The quadratic mean of the batch: what the place of one part in it scatters by goes with it. */
  readonly usual: Mm;
  /** Of the largest hole on the smallest pin, which a worst case takes. */
  readonly loosest: Mm;
}

/** Where a clamp presses, and into which direction. */
export interface Clamp {
  readonly id: string;
  readonly at: readonly [Mm, Mm, Mm];
  readonly pressing: AxisDirection;
}

/** A Z touch on the seated part, beside the same touch on a part that is known to have sat well. */
export interface SeatTouch {
  readonly id: string;
  readonly x: Mm;
  readonly y: Mm;
  readonly reading: Mm;
  readonly baseline: Mm;
}

export interface Fixture {
  readonly locators: readonly Locator[];
  readonly clamps: readonly Clamp[];
  readonly seatTouches: readonly SeatTouch[];
  /** Standard deviation of one touch of the seat check. */
  readonly seatScatter: Mm;
  /** The error that locating may cause to any characteristic at worst, for the required spacing; undefined when nobody asks. */
  readonly wantedError: Mm | undefined;
}
