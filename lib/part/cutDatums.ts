import { axes, type Vector } from "../base/vector.ts";
import { certain, type Uncertain } from "../uncertainty/uncertain.ts";
import { axesOf, basicPlace, type Element, type Part } from "./part.ts";

/** What the drawing's frame rests on that operations have cut. */
export interface CutDatums {
  /** Along X, Y and Z; undefined where a surface as received is the datum. */
  readonly along: readonly [Element | undefined, Element | undefined, Element | undefined];
  /** What says how the frame is turned about Z; undefined for a surface as received. */
  readonly orienting: Element | undefined;
}

/**
 * Along every axis the datum with the first letter that has a place there (letters in the order of ISO 5459). The turn is that of the first upright
 * face with a letter; without one, of the two elements along X and Y where one operation has cut both. Undefined where all of it is as received.
 */
export function cutDatums({ elements }: Part): CutDatums | undefined {
  const known = new Map(elements.map((element) => [element.id, element]));
  const lettered = elements.filter(({ datum }) => datum !== "").sort((a, b) => (a.datum < b.datum ? -1 : a.datum > b.datum ? 1 : 0));
  const [x, y, z] = axes.map((axis) => ifCut(lettered.find((element) => axesOf(element, known).includes(axis))));
  const upright = lettered.find((element) => element.kind === "face" && element.outward[1] !== "Z");
  const orienting = upright === undefined && x && y && cutOf(x) === cutOf(y) ? x : ifCut(upright);
  return x || y || z || orienting ? { along: [x, y, z], orienting } : undefined;
}

function ifCut(element: Element | undefined): Element | undefined {
  return element && cutOf(element) !== undefined ? element : undefined;
}

/** The operation that cuts an element, the present one being nameless; undefined for what the part came with. */
function cutOf({ made, cutIn }: Element): string | undefined {
  return made === "here" ? "" : cutIn;
}

/**
 * How far the drawing's frame is, at a place of it, from the one that the surfaces as received make, mm: it goes with its datums, and turns with the
 * one that orients it.
 *
 * @param placeOf how far an element is off its place on the drawing, along X, Y and Z
 * @param turnOf how an element is turned about Z, radians
 */
export function shiftOfFrame(
  { along, orienting }: CutDatums,
  place: Vector,
  placeOf: (element: Element) => readonly (Uncertain | undefined)[],
  turnOf: (element: Element) => Uncertain,
): readonly (Uncertain | undefined)[] {
  const turn = orienting && turnOf(orienting);
  return along.map((datum, axis) => {
    const shift = datum === undefined ? certain(0) : placeOf(datum)[axis];
    return turn === undefined ? shift : shift?.plus(turned(turn, datum === undefined ? [0, 0, 0] : basicPlace(datum), place, axis));
  });
}

/** How far the drawing's frame is off at one place of it against another, mm, along X, Y and Z: its turn alone. */
export function turnOfFrame(
  { orienting }: CutDatums,
  from: Vector,
  place: Vector,
  turnOf: (element: Element) => Uncertain,
): readonly [Uncertain, Uncertain, Uncertain] {
  const turn = orienting === undefined ? certain(0) : turnOf(orienting);
  return [turned(turn, from, place, 0), turned(turn, from, place, 1), certain(0)];
}

/** A small turn about Z moves a place across the way to it. */
function turned(turn: Uncertain, [x, y]: Vector, [toX, toY]: Vector, axis: number): Uncertain {
  return axis === 2 ? certain(0) : turn.times(axis === 0 ? y - toY : toX - x);
}
