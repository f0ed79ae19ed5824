import { millimetresPerInch } from "../base/quantity.ts";
import { axes } from "../base/vector.ts";
import { inOperation, type Machine } from "../equipment/equipment.ts";
import type { SourceBook } from "../uncertainty/sourceBook.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";

/**
 * What typing an offset may change, mm: half of the register's step, or of the last decimal typed where that is coarser or no step is stated; nothing
 * where the step is stated as 0. One source per axis (JCGM 100:2008, F.2.2.1).
 */
export function offsetRounding(machine: Machine, axis: 0 | 1 | 2, book: SourceBook): Uncertain {
  return book.value({
    id: `machine, offset step ${axes[axis]}${inOperation(machine)}`,
    label: `rounding of the typed offset ${axes[axis]}`,
    family: "machine",
    distribution: { shape: "rectangular", halfWidth: stepOf(machine) / 2 },
    evidence: { kind: "stated" },
  });
}

function stepOf({ offsetStep, decimals, controllerUnit }: Machine): number {
  const lastDecimal = 10 ** -decimals * (controllerUnit === "inch" ? millimetresPerInch : 1);
  if (offsetStep === undefined) return lastDecimal;
  return offsetStep === 0 ? 0 : Math.max(offsetStep, lastDecimal);
}
