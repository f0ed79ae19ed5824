import { axisOf, indexOfAxis } from "../base/vector.ts";
import type { LocatedPart } from "./locateElements.ts";
import { type Element, type Face, isBore, type Round } from "./part.ts";

/** What bounds a wall: a bore, and an upright face or another bore, with the metal between them. */
export interface WallBounds {
  readonly bore: Round;
  readonly other: Face | Round;
}

/** The two as the bounds of a wall; undefined if they are none. */
export function wallBounds(of: Element, from: Element): WallBounds | undefined {
  if (!isBore(of) || of === from) return undefined;
  if (isBore(from)) return { bore: of, other: from };
  return from.kind === "face" && axisOf(from.outward) !== "Z" ? { bore: of, other: from } : undefined;
}

/** +1 where the face looks along its axis, away from the bore, and -1 where it looks against it. */
export function sideOf({ outward }: Face): 1 | -1 {
  return outward[0] === "+" ? 1 : -1;
}

/** From the centre of the one round element to that of the other on the drawing, mm along X and Y; undefined where nothing ties them to datums. */
export function betweenCentres(
  from: Pick<Element, "id">,
  to: Pick<Element, "id">,
  { places }: LocatedPart,
): readonly [number, number] | undefined {
  const [start, end] = [places.get(from.id), places.get(to.id)];
  if (!start?.[0] || !start[1] || !end?.[0] || !end[1]) return undefined;
  return [end[0].nominal - start[0].nominal, end[1].nominal - start[1].nominal];
}

/** The text of the length in `at least 3 mm`; undefined where a tolerance is not stated so. */
export function leastIn(tolerance: string): string | undefined {
  return /^\s*at\s+least\b(.*)$/isu.exec(tolerance)?.[1];
}

/**
 * The least wall on the drawing, mm: distance of the centre from the face, or of the two centres, less the radii (plane geometry). Not above 0
 * where the drawing leaves no metal between the two; undefined where nothing ties them to datums.
 */
export function nominalWall({ bore, other }: WallBounds, located: LocatedPart): number | undefined {
  if (other.kind !== "face") {
    const between = betweenCentres(bore, other, located);
    return between && Math.hypot(...between) - (bore.diameter + other.diameter) / 2;
  }
  const index = indexOfAxis(axisOf(other.outward));
  const [centre, face] = [bore, other].map(({ id }) => located.places.get(id)?.[index]?.nominal);
  return centre === undefined || face === undefined ? undefined : sideOf(other) * (face - centre) - bore.diameter / 2;
}
