import { axes } from "../base/vector.ts";
import type { SourceBook } from "../uncertainty/sourceBook.ts";
import { certain, type Uncertain } from "../uncertainty/uncertain.ts";
import type { Machine } from "./equipment.ts";

/**
 * How far the machine's motions are out of square, radians, one source for the turn about each axis: about X and Y what is cut upright (the spindle and
 * its way along Z) against the plane of X and Y, about Z the way along Y against the way along X. Exactly 0 where nothing is stated; who rests on it
 * asks `machine.squareness` first.
 */
export function squarenessAbout({ squareness }: Machine, about: 0 | 1 | 2, book: SourceBook): Uncertain {
  const halfWidth = squareness[about];
  if (halfWidth === undefined) return certain(0);
  return book.value({
    id: `machine, squareness about ${axes[about]}`,
    label: `squareness about ${axes[about]}`,
    family: "machine",
    distribution: { shape: "rectangular", halfWidth },
    evidence: { kind: "stated" },
  });
}

/** What the turn of Y against X moves along X, mm per radian: a way that is turned by s leaves X at -s·y. */
export function squarenessMoves(place: readonly [number, number, number], axis: 0 | 1 | 2): number {
  return axis === 0 ? -place[1] : 0;
}
