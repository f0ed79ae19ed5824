import { axes } from "../base/vector.ts";
import type { SourceBook } from "../uncertainty/sourceBook.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";
import { inOperation, type Machine } from "./equipment.ts";

/**
 * Half the lost motion of an axis, mm: how far its place is off, to the side of its last move. One source per axis, bounded by b/2; where the side
 * is not stated it may be another one in every operation.
 */
export function halfLostMotion(machine: Machine, axis: 0 | 1 | 2, book: SourceBook): Uncertain {
  return book.value({
    id: `machine, lost motion ${axes[axis]}${machine.working[axis] === undefined ? inOperation(machine) : ""}`,
    label: `lost motion ${axes[axis]}`,
    family: "machine",
    distribution: { shape: "rectangular", halfWidth: machine.lostMotion[axis] / 2 },
    evidence: { kind: "stated" },
  });
}
