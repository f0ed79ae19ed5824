import type { Vector } from "../base/vector.ts";

/** Whether a flat face lies level, so that nothing of X, Y and the turn about Z shows in it. */
export function isLevel(surface: Surface): boolean {
  return surface.kind === "plane" && surface.outward[0] === 0 && surface.outward[1] === 0;
}

/** The part of an element that a tool can touch, in part coordinates at nominal size, mm. */
export type Surface =
  /** A flat face through `point`; `outward` is the unit vector out of the metal. */
  | { readonly kind: "plane"; readonly point: Vector; readonly outward: Vector }
  /** A round wall about an axis along Z through `axis`: the metal lies outside a bore and inside a boss. */
  | { readonly kind: "bore" | "boss"; readonly axis: Vector; readonly radius: number }
  /** The axis itself, found by sweeping an indicator round: `along` is the direction in which this contact fixes it. */
  | { readonly kind: "axis"; readonly axis: Vector; readonly along: Vector };
