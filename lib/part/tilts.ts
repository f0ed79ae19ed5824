import { type Axis, addScaled, axes, cross, dot, unitVector, type Vector } from "../base/vector.ts";
import { axesOf, type Element, type Tilt } from "./part.ts";

/** What an element is to an orientation: a plane that looks along an axis, or a line along one. */
export interface Direction {
  readonly shape: "plane" | "line";
  readonly axis: Axis;
}

/** Round elements stand along Z. Undefined for a middle without readable faces, and for a face that looks along no axis. */
export function directionOf(element: Element, elements: ReadonlyMap<string, Element>): Direction | undefined {
  if (element.kind === "bore" || element.kind === "boss") return { shape: "line", axis: "Z" };
  if (element.kind === "angled face") return undefined;
  const [axis] = axesOf(element, elements);
  return axis && { shape: "plane", axis };
}

/** Whether the drawing puts two directions parallel or square to each other: a plane is parallel to the lines in it. */
export function relationOf(of: Direction, from: Direction): "parallelism" | "perpendicularity" {
  const along = of.axis === from.axis;
  return along === (of.shape === from.shape) ? "parallelism" : "perpendicularity";
}

/** The axes about which a turn of the one against the other can be told: those that are square to both normals or lines, or one of two where these are alike. */
export function turnsBetween(of: Direction, from: Direction): readonly Axis[] {
  return axes.filter((axis) => axis !== of.axis && axis !== from.axis);
}

/**
 * The directions in which a feature's length counts, and how: one over a single length, two lengths where a plane tilts both ways, none where the
 * feature is a line within a round zone (its own length counts along itself).
 */
export function lengthsOf(of: Direction, from: Direction): readonly Axis[] {
  if (of.shape === "line") return [of.axis];
  const about = turnsBetween(of, from);
  const across = axes.filter((axis) => axis !== of.axis);
  return about.length === 2 ? across : across.filter((axis) => !about.includes(axis));
}

/**
 * Parallelism or perpendicularity as forms in the turns ω, mm: a point of the feature at r is moved by n · (ω × r) = ω · (r × n) across the zone.
 *
 * A plane that tilts both ways lies between two planes at a distance of the larger of its two diagonals' rises, so that it is met when both are: one form for each.
 *
 * @param lengths by `lengthsOf`, mm
 */
export function planarTilts(of: Direction, from: Direction, lengths: readonly number[]): readonly Tilt[] {
  const across = lengthsOf(of, from).map((axis, i) => scaled(axis, lengths[i] as number));
  const [first, second] = across as [Vector, Vector?];
  // A line, or a plane that a line is compared with, counts across the plane it is in or along that line: its own normal is the direction told.
  const normal = unitVector(`+${of.shape === "line" ? from.axis : of.axis}`);
  const ends: Vector[] = second === undefined ? [first] : [addScaled(first, 1, second), addScaled(first, -1, second)];
  return ends.map((end) => formOf(cross(end, normal), turnsBetween(of, from)));
}

/** A line within a round zone: X and Y of half its length, of which the diameter 2·√(x² + y²) is the length times the tilt. */
export function roundTilt(length: number): readonly [Tilt, Tilt] {
  return [[{ about: "Y", factor: length / 2 }], [{ about: "X", factor: -length / 2 }]];
}

/** A line of this length along Z, told along one axis across it. */
export function lineTilt(length: number, towards: Axis): Tilt {
  return formOf(cross(scaled("Z", length), unitVector(`+${towards}`)), ["X", "Y"]);
}

function formOf(moment: Vector, about: readonly Axis[]): Tilt {
  return about.flatMap((axis) => {
    const factor = dot(moment, unitVector(`+${axis}`));
    return factor === 0 ? [] : [{ about: axis, factor }];
  });
}

function scaled(axis: Axis, length: number): Vector {
  return addScaled([0, 0, 0], length, unitVector(`+${axis}`));
}
