import type { Mm } from "../base/quantity.ts";
import type { WorkFrame } from "../equipment/equipment.ts";

/** A way to make part zero: which contacts count, and where the zero sits on the part. */
export interface Strategy {
  readonly id: string;
  readonly touches: readonly string[];
  /** Middles that sit at their drawing place, whatever the width between their faces. */
  readonly hold: readonly string[];
  /** Faces whose touches only tell how the part is turned: a datum that orients and does not locate. */
  readonly orient: readonly string[];
  readonly rotation: "ignored" | "measured" | "applied";
  readonly sizes: "nominal" | "measured";
  /** The frame of a fixture that locates the part without any touch; undefined for touches. */
  readonly fixtureFrame: WorkFrame | undefined;
  /** Part zero: a coordinate in the drawing's frame, or an element, per axis. */
  readonly zero: readonly [ZeroPlace, ZeroPlace, ZeroPlace];
}

export type ZeroPlace = { readonly kind: "coordinate"; readonly value: Mm } | { readonly kind: "element"; readonly element: string };
