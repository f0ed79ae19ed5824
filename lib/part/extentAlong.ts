import { type Axis, indexOfAxis } from "../base/vector.ts";
import type { LocatedPart } from "./locateElements.ts";
import type { Part } from "./part.ts";

/** Where a part begins and ends along an axis on its drawing, mm. */
export interface Extent {
  readonly low: number;
  readonly high: number;
}

/** Undefined where its outermost faces along the axis do not look away from it: something of the part may then lie beyond what is known. */
export function extentAlong({ elements }: Pick<Part, "elements">, { places }: LocatedPart, axis: Axis): Extent | undefined {
  const index = indexOfAxis(axis);
  const faces = elements.flatMap((element) => {
    const at = places.get(element.id)?.[index]?.nominal;
    return element.kind === "face" && element.outward[1] === axis && at !== undefined ? [{ at, side: element.outward[0] }] : [];
  });
  const known = elements.flatMap(({ id }) => places.get(id)?.[index]?.nominal ?? []);
  const [low, high] = [Math.min(...known), Math.max(...known)];
  const ends = faces.some(({ at, side }) => at === low && side === "-") && faces.some(({ at, side }) => at === high && side === "+");
  return ends ? { low, high } : undefined;
}
