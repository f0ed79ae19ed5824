import { axes } from "../base/vector.ts";
import { axesOf, type Element, type Part } from "./part.ts";

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
export function cutDatums({ elements }: Pick<Part, "elements">): CutDatums | undefined {
  const known = new Map(elements.map((element) => [element.id, element]));
  const lettered = elements.filter(({ datum }) => datum !== "").sort((a, b) => (a.datum < b.datum ? -1 : a.datum > b.datum ? 1 : 0));
  const [x, y, z] = axes.map((axis) => ifCut(lettered.find((element) => axesOf(element, known).includes(axis))));
  const upright = lettered.find((element) => isUpright(element));
  const orienting = upright === undefined && x && y && cutOf(x) === cutOf(y) ? x : ifCut(upright);
  return x || y || z || orienting ? { along: [x, y, z], orienting } : undefined;
}

function isUpright(element: Element): boolean {
  return (element.kind === "angled face" && element.inclination === 0) || (element.kind === "face" && element.outward[1] !== "Z");
}

function ifCut(element: Element | undefined): Element | undefined {
  return element && cutOf(element) !== undefined ? element : undefined;
}

/** The operation that cuts an element, the present one being nameless; undefined for what the part came with. */
function cutOf({ made, cutIn }: Element): string | undefined {
  return made === "here" ? "" : cutIn;
}
