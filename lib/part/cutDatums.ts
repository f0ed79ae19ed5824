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
    const [x, y] = datum === undefined ? [0, 0] : basicPlace(datum);
    if (turn === undefined || axis === 2) return shift;
    return shift?.plus(turn.times(axis === 0 ? y - place[1] : place[0] - x));
  });
}
