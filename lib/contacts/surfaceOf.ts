import type { Problem } from "../base/outcome.ts";
import { type Axis, indexOfAxis, unitVector, type Vector } from "../base/vector.ts";
import type { LocatedPart } from "../part/locateElements.ts";
import { type Element, normalOf } from "../part/part.ts";
import type { Surface } from "./surface.ts";

/** The touchable surface of an element at nominal size, in part coordinates; a problem when nothing says where it is. */
export function surfaceOf(element: Element, { places }: LocatedPart): Surface | Problem {
  const place = places.get(element.id);
  const nominal = (axis: 0 | 1 | 2) => place?.[axis]?.nominal;
  if (element.kind === "middle") throw new Error("surfaceOf: a middle has no surface");
  if (element.kind === "face") {
    const index = indexOfAxis(element.outward[1] as Axis);
    const value = nominal(index);
    if (value === undefined) return untied(element.id);
    const point: Vector = [index === 0 ? value : 0, index === 1 ? value : 0, index === 2 ? value : 0];
    return { kind: "plane", point, outward: unitVector(element.outward) };
  }
  if (element.kind === "angled face") {
    const outward = normalOf(element);
    const point = outward.map((share, axis) => (share === 0 ? 0 : nominal(axis as 0 | 1 | 2)));
    if (point.some((coordinate) => coordinate === undefined)) return untied(element.id);
    return { kind: "plane", point: point as unknown as Vector, outward };
  }
  const x = nominal(0);
  const y = nominal(1);
  if (x === undefined || y === undefined) return untied(element.id);
  return { kind: element.kind, axis: [x, y, 0], radius: element.diameter / 2 };
}

function untied(id: string): Problem {
  return {
    at: "",
    what: `"${id}" has no place on the drawing`,
    remedy: `tie "${id}" to a datum by a dimension, or give it a datum letter`,
  };
}
