import type { Axis } from "../base/vector.ts";
import { axesOf, type Element, surfacesOf } from "./part.ts";

/**
 * A datum system (ISO 5459): up to three datum features in their order. The derived feature of each is the datum: a plane, the mid-plane of two
 * faces, the axis of a bore or a boss.
 */
export interface DatumSystem {
  readonly id: string;
  /** Names of elements, the primary datum first. */
  readonly datums: readonly string[];
  /** Those that are referenced at their maximum material (`datumShifts`); left out where there are none. */
  readonly atMaximumMaterial?: readonly string[];
}

/** The datum that fixes the place along an axis: the first of the system that has one there (each fixes only what those before it leave open). */
export function datumAlong({ datums }: DatumSystem, axis: Axis, elements: ReadonlyMap<string, Element>): string | undefined {
  return datums.find((id) => {
    const element = elements.get(id);
    return element !== undefined && axesOf(element, elements).includes(axis);
  });
}

/**
 * What fixes the turn about Z: the first upright face or mid-plane, or the line between the axes of the first two rounds, whichever is complete
 * first; undefined where nothing does.
 */
export function turnOf(
  system: DatumSystem,
  elements: ReadonlyMap<string, Element>,
): readonly [string] | readonly [string, string] | undefined {
  let round: string | undefined;
  for (const id of system.datums) {
    const element = elements.get(id);
    if (element === undefined) continue;
    if (element.kind === "bore" || element.kind === "boss") {
      if (round !== undefined) return [round, id];
      round = id;
    } else if (!axesOf(element, elements).includes("Z")) return [id];
  }
  return undefined;
}

/** Rank of every element whose touches tell a datum, 0 for the primary; the faces of a mid-plane have that of the mid-plane. */
export function ranksOf({ datums }: DatumSystem, elements: ReadonlyMap<string, Element>): ReadonlyMap<string, number> {
  const ranks = new Map<string, number>();
  for (const [rank, id] of datums.entries()) {
    const element = elements.get(id);
    for (const surface of element === undefined ? [id] : surfacesOf(element)) if (!ranks.has(surface)) ranks.set(surface, rank);
  }
  return ranks;
}
