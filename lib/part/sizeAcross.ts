import { type Axis, indexOfAxis } from "../base/vector.ts";
import type { LocatedPart } from "./locateElements.ts";
import type { Element } from "./part.ts";

/** The part's nominal size along an axis, mm: between the two farthest of its faces that look along it; undefined where there are no two. */
export function sizeAcross(axis: Axis, elements: Iterable<Element>, { places }: LocatedPart): number | undefined {
  const along = [...elements].flatMap((element) => {
    const place = element.kind === "face" && element.outward[1] === axis ? places.get(element.id)?.[indexOfAxis(axis)] : undefined;
    return place === undefined ? [] : [place.nominal];
  });
  const size = Math.max(...along) - Math.min(...along);
  return size > 0 ? size : undefined;
}
