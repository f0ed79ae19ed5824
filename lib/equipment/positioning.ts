import { axes } from "../base/vector.ts";
import type { SourceBook } from "../uncertainty/sourceBook.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";
import type { Machine } from "./equipment.ts";

/**
 * How far an axis is from where its display says, per mm of its coordinate: one source per axis. It enters a touch by the place where the tool
 * stood and the work by the place where it is done, so that only the way between them counts.
 */
export function positioningPerLength(machine: Machine, axis: 0 | 1 | 2, book: SourceBook): Uncertain {
  return book.value({
    id: `machine, positioning ${axes[axis]}`,
    label: `positioning ${axes[axis]}, growing with distance`,
    family: "machine",
    distribution: { shape: "rectangular", halfWidth: machine.positioningRate },
    evidence: { kind: "stated" },
  });
}
