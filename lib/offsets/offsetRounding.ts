import { axes } from "../base/vector.ts";
import type { Machine } from "../equipment/equipment.ts";
import type { SourceBook } from "../uncertainty/sourceBook.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";

/** What typing an offset in the register's steps may change, mm; one source per axis, nothing when the step is not stated. */
export function offsetRounding(machine: Machine, axis: 0 | 1 | 2, book: SourceBook): Uncertain {
  return book.value({
    id: `machine, offset step ${axes[axis]}`,
    label: `rounding of the typed offset ${axes[axis]}`,
    family: "machine",
    distribution: { shape: "rectangular", halfWidth: machine.offsetStep / 2 },
    evidence: { kind: "stated" },
  });
}
