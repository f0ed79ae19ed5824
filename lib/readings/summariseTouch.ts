import { type Axis, axes, indexOfAxis } from "../base/vector.ts";
import { type RepeatSummary, summariseRepeats } from "../uncertainty/repeats.ts";
import type { Touch } from "./touch.ts";

/** Repeats of a touch along each axis that its readings are about: the axis of its travel, or X and Y of a round wall. */
export function summariseTouch({ travelling, positions }: Touch): readonly { readonly axis: Axis; readonly repeats: RepeatSummary }[] {
  const along: readonly Axis[] =
    travelling === "radial" || travelling === "sweep" ? ["X", "Y"] : axes.filter((axis) => axis === travelling[1]);
  return along.flatMap((axis) => {
    const values = positions.flatMap((position) => position[indexOfAxis(axis)] ?? []);
    return values.length === 0 ? [] : [{ axis, repeats: summariseRepeats(values) }];
  });
}
