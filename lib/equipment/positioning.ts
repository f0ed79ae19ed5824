import { axes } from "../base/vector.ts";
import type { SourceBook } from "../uncertainty/sourceBook.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";
import type { Machine } from "./equipment.ts";
import { heatPerLength } from "./heat.ts";

/**
 * How far a place is from where the display says, per mm of its coordinate: the machine's positioning, one source per axis, and what heat does to
 * scale and part. It enters a touch by the place where the tool stood and the work by the place where it is done, so that only the way between
 * them counts.
 */
export function positioningPerLength(machine: Machine, axis: 0 | 1 | 2, book: SourceBook): Uncertain {
  const positioning = book.value({
    id: `machine, positioning ${axes[axis]}`,
    label: `positioning ${axes[axis]}, growing with distance`,
    family: "machine",
    distribution: { shape: "rectangular", halfWidth: machine.positioningRate },
    evidence: { kind: "stated" },
  });
  return positioning.plus(heatPerLength(machine.heat, book));
}
