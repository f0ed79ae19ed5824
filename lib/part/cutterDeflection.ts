import { axisOf, indexOfAxis } from "../base/vector.ts";
import type { SourceBook } from "../uncertainty/sourceBook.ts";
import { betweenLimits } from "../uncertainty/statedLimits.ts";
import { certain, type Uncertain } from "../uncertainty/uncertain.ts";
import type { Element } from "./part.ts";

/**
 * How far a face stays proud along an axis because the cutter yields, mm: out of the metal, by anything from nothing to the stated amount, half of it
 * at the best estimate. One source per face; a round wall is cut on all sides alike, so that its axis does not move.
 */
export function cutterDeflection(element: Element, axis: 0 | 1 | 2, book: SourceBook): Uncertain {
  if (element.kind !== "face" || element.deflection === 0 || indexOfAxis(axisOf(element.outward)) !== axis) return certain(0);
  return book
    .value({
      id: `element ${element.id}, cutter deflection`,
      label: `yielding of the cutter at ${element.id}`,
      family: "process",
      ...betweenLimits(0, 0, element.deflection),
      evidence: { kind: "stated" },
    })
    .times(element.outward[0] === "-" ? -1 : 1);
}
