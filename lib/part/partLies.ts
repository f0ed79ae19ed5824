import { radian } from "../base/quantity.ts";
import { type AxisDirection, axes, axisOf, indexOfAxis, opposite, type Vector } from "../base/vector.ts";
import type { Dimension, Element, Part } from "./part.ts";

/** How a part lies in the machine, seen from its drawing. */
export const partLies = ["as drawn", "turned over about X", "turned over about Y", "turned half round about Z"] as const;
export type PartLies = (typeof partLies)[number];

/** Which axes of the part point against those of the machine. */
export type AxisSigns = readonly [x: 1 | -1, y: 1 | -1, z: 1 | -1];

/** A half turn about one axis reverses the two others: plain geometry. */
export function axisSigns(lies: PartLies): AxisSigns {
  switch (lies) {
    case "as drawn":
      return [1, 1, 1];
    case "turned over about X":
      return [1, -1, -1];
    case "turned over about Y":
      return [-1, 1, -1];
    case "turned half round about Z":
      return [-1, -1, 1];
  }
}

/**
 * A place of the drawing, seen in the axes of a machine in which the part lies turned: (x, -y, -z) about X. The drawing's origin stays the origin;
 * the thickness T of the shop's (x, -y, T - z) comes in with the place of zero, where that is on the other face.
 */
export function turnedPlace([x, y, z]: Vector, [sx, sy, sz]: AxisSigns): Vector {
  return [times(x, sx), times(y, sy), times(z, sz)];
}

export function turnedDirection<D extends AxisDirection>(direction: D, signs: AxisSigns): D {
  return (signs[indexOfAxis(axisOf(direction))] === 1 ? direction : opposite(direction)) as D;
}

/** The part in the axes of a machine in which it lies turned; what the drawing demands stays as it is, and is judged in the drawing's axes. */
export function turnedPart(part: Part, signs: AxisSigns): Part {
  return {
    ...part,
    elements: part.elements.map((element) => turnedElement(element, signs)),
    dimensions: part.dimensions.map((dimension) => turnedDimension(dimension, signs)),
  };
}

function turnedElement(element: Element, signs: AxisSigns): Element {
  const at = axes.map((_, axis) => {
    const value = element.at[axis];
    return value === undefined ? undefined : times(value, signs[axis] as 1 | -1);
  }) as unknown as Element["at"];
  switch (element.kind) {
    case "face":
      return { ...element, at, outward: turnedDirection(element.outward, signs) };
    case "angled face": {
      const { facing, inclination } = element;
      return {
        ...element,
        at,
        facing: radian(Math.atan2(signs[1] * Math.sin(facing), signs[0] * Math.cos(facing))),
        inclination: times(inclination, signs[2]),
      };
    }
    case "middle":
      return { ...element, at };
    default:
      // The same wall in all operations: its lobes are where they are on the drawing.
      return { ...element, at, lobing: element.lobing && { ...element.lobing, signs: [signs[0], signs[1]] } };
  }
}

/** Along an axis that is reversed the same size leads from the other end. */
function turnedDimension(dimension: Dimension, signs: AxisSigns): Dimension {
  return signs[indexOfAxis(dimension.axis)] === 1 ? dimension : { ...dimension, from: dimension.to, to: dimension.from };
}

/** No `-0`. */
function times<N extends number>(value: N, sign: 1 | -1): N {
  return (sign === 1 || value === 0 ? value : -value) as N;
}
