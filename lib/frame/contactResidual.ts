import { addScaled, dot, turnAboutZ, type Vector } from "../base/vector.ts";
import type { Surface } from "../contacts/surface.ts";

/** Unknowns of every frame, in this order, before its sizes: X, Y, Z, rotation. */
export const poseUnknowns = 4;

/** How one unit of a size moves the surface of a contact: its place, and the radius of a round wall. */
export interface Movement {
  /** Index of the size among the sizes of the frame. */
  readonly size: number;
  readonly shift: Vector;
  readonly growth: number;
}

/** The fixed geometry of one contact. Lengths in mm. */
export interface ContactGeometry {
  readonly surface: Surface;
  /** Centre of the tool when it touched, machine axes. */
  readonly centre: Vector;
  /** Unit vector along which the tool travelled, machine axes. */
  readonly travel: Vector;
  readonly movements: readonly Movement[];
  /** How much this contact counts beside others that disagree with it, above 0: its residual is multiplied by it. 1 for the most reliable. */
  readonly weight: number;
}

/** The pose of the part in the machine: machine = origin + turn(rotation) · part. */
export interface Pose {
  readonly origin: Vector;
  /** About Z, in radians. */
  readonly rotation: number;
}

/**
 * A contact seen from one pose: how far it is from fulfilled, and how that changes. Derivatives are by X, Y, Z, rotation and every size, in this
 * order. All of it multiplied by the contact's weight.
 */
export interface ContactResidual {
  /** Distance by which the tool, as placed, stands off the surface; 0 when the contact is fulfilled, mm times the weight. */
  readonly value: number;
  readonly gradient: Float64Array;
  /** By the advance of the tool along its travel. */
  readonly byAdvance: number;
  /** By the reach. */
  readonly byReach: number;
}

/** Second derivatives of a contact's residual. */
export interface ContactBend {
  /** Row-major (4 + sizes)². */
  readonly curvature: Float64Array;
  /** Derivatives of the gradient by the advance. */
  readonly gradientByAdvance: Float64Array;
}

/**
 * The one equation behind every touch: seen in part coordinates, the tool's
 * centre stands one reach off the surface,
 *
 *     residual = outward · (Rᵀ(centre + advance · travel - origin) - point) - reach = 0
 *
 * for a plane, and the distance from the axis less the radius in place of the
 * first term for a round wall. The reach acts along the surface's normal and the
 * advance along the travel, so a skewed face is compensated along its normal.
 * Derivatives are exact.
 *
 * @param sizes current values of the sizes' deviations from nominal
 * @returns undefined when the tool's centre lies on the axis of a round wall, where the normal has no direction
 */
export function contactResidual(
  { surface, centre, travel, movements, weight }: ContactGeometry,
  { origin, rotation }: Pose,
  sizes: ArrayLike<number>,
  lengths: Float64Array,
  first = 0,
): ContactResidual | undefined {
  const advance = lengths[first] as number;
  const reach = lengths[first + 1] as number;
  // Coordinate by coordinate: this runs for every contact at every step of every frame.
  const cosine = Math.cos(rotation);
  const sine = Math.sin(rotation);
  const dx = centre[0] + advance * travel[0] - origin[0];
  const dy = centre[1] + advance * travel[1] - origin[1];
  const dz = centre[2] + advance * travel[2] - origin[2];
  // From the surface's point, or the foot of its axis, which the sizes may have moved; part axes.
  const at = surface.kind === "plane" ? surface.point : surface.axis;
  const seenX = cosine * dx + sine * dy;
  const seenY = cosine * dy - sine * dx;
  let x = seenX - at[0];
  let y = seenY - at[1];
  let z = dz - at[2];
  let growth = 0;
  for (let k = 0; k < movements.length; k++) {
    const movement = movements[k] as Movement;
    const size = sizes[movement.size] as number;
    x -= size * movement.shift[0];
    y -= size * movement.shift[1];
    z -= size * movement.shift[2];
    growth += size * movement.growth;
  }
  // The unit vector out of the metal, part axes, and what it meets.
  let nx: number;
  let ny: number;
  let nz = 0;
  let distance: number;
  let growthSign = 0;
  if (surface.kind === "plane" || surface.kind === "axis") {
    const flat = surface.kind === "plane" ? surface.outward : surface.along;
    nx = flat[0];
    ny = flat[1];
    nz = flat[2];
    distance = nx * x + ny * y + nz * z;
  } else {
    const fromAxis = Math.sqrt(x * x + y * y);
    if (!(fromAxis > 0)) return undefined;
    const side = surface.kind === "boss" ? 1 : -1;
    nx = (side * x) / fromAxis;
    ny = (side * y) / fromAxis;
    distance = side * (fromAxis - surface.radius - growth);
    growthSign = -side;
  }
  const gradient = new Float64Array(poseUnknowns + sizes.length);
  // The normal in machine axes, reversed: the part moving outwards closes the gap.
  const byX = sine * ny - cosine * nx;
  const byY = -(sine * nx + cosine * ny);
  gradient[0] = byX * weight;
  gradient[1] = byY * weight;
  gradient[2] = -nz * weight;
  gradient[3] = (nx * seenY - ny * seenX) * weight;
  for (let k = 0; k < movements.length; k++) {
    const { size, shift, growth: ownGrowth } = movements[k] as Movement;
    const change = growthSign * ownGrowth - (nx * shift[0] + ny * shift[1] + nz * shift[2]);
    gradient[poseUnknowns + size] = (gradient[poseUnknowns + size] as number) + change * weight;
  }
  const byAdvance = nz * travel[2] - byX * travel[0] - byY * travel[1];
  return { value: (distance - reach) * weight, gradient, byAdvance: byAdvance * weight, byReach: -weight };
}

/**
 * The unit vector out of the metal where a contact met it, machine axes; of a round wall by its drawn place.
 *
 * @returns undefined when the tool's centre lies on the axis of a round wall
 */
export function outwardInMachine(contact: Pick<ContactGeometry, "surface" | "centre" | "travel">, pose: Pose): Vector | undefined {
  const at = contactResidual({ ...contact, movements: [], weight: 1 }, pose, [], new Float64Array(2));
  // The part moving outwards closes the gap.
  return at && [-(at.gradient[0] as number), -(at.gradient[1] as number), -(at.gradient[2] as number)];
}

/** Whether a tool on its way would have come to a flat face out of the metal, were the part to lie so. */
export function isMetFromBehind(contact: Pick<ContactGeometry, "surface" | "centre" | "travel">, pose: Pose): boolean {
  const outward = contact.surface.kind === "plane" ? outwardInMachine(contact, pose) : undefined;
  return outward !== undefined && dot(outward, contact.travel) >= 0;
}

/** Second derivatives of the residual at the same place, without its weight; only where it has a value. */
export function contactBend(contact: ContactGeometry, pose: Pose, sizes: ArrayLike<number>, advance: number): ContactBend {
  const seen = seenFrom(pose, contact, advance);
  const wall = wallAt(contact, seen, sizes);
  if (wall === undefined) throw new RangeError("contactBend: expected a tool off the axis of its round wall");
  const { normal, curvature: bend } = wall;
  const { rotation } = pose;
  // How the seen centre moves against the surface, per unknown.
  const unknowns = poseUnknowns + sizes.length;
  const moves: Vector[] = [turnAboutZ([-1, 0, 0], -rotation), turnAboutZ([0, -1, 0], -rotation), [0, 0, -1], quarterTurn(seen)];
  for (let s = 0; s < sizes.length; s++) moves.push([0, 0, 0]);
  for (const { size, shift } of contact.movements) moves[poseUnknowns + size] = addScaled(moves[poseUnknowns + size] as Vector, -1, shift);
  const advanceMove = turnAboutZ(contact.travel, -rotation);

  const curvature = new Float64Array(unknowns * unknowns);
  moves.forEach((a, i) => {
    moves.forEach((b, j) => {
      curvature[i * unknowns + j] = bend(a, b) + dot(normal, secondMove(i, j, moves, seen));
    });
  });
  const gradientByAdvance = Float64Array.from(
    moves,
    (a, i) => bend(a, advanceMove) + (i === 3 ? dot(normal, quarterTurn(advanceMove)) : 0),
  );
  return { curvature, gradientByAdvance };
}

/** The tool's centre in part coordinates. */
function seenFrom({ origin, rotation }: Pose, { centre, travel }: ContactGeometry, advance: number): Vector {
  const fromOrigin = addScaled(addScaled(centre, advance, travel), -1, origin);
  return rotation === 0 ? fromOrigin : turnAboutZ(fromOrigin, -rotation);
}

interface Wall {
  /** Unit vector out of the metal, part axes. */
  readonly normal: Vector;
  /** Second derivative of the distance from the wall along two movements of the tool. */
  readonly curvature: (a: Vector, b: Vector) => number;
}

const flat = () => 0;

function wallAt({ surface, movements }: ContactGeometry, seen: Vector, sizes: ArrayLike<number>): Wall | undefined {
  if (surface.kind === "plane") return { normal: surface.outward, curvature: flat };
  if (surface.kind === "axis") return { normal: surface.along, curvature: flat };
  const shifted = movements.reduce((at, { size, shift }) => addScaled(at, -(sizes[size] as number), shift), seen);
  const [x, y] = addScaled(shifted, -1, surface.axis);
  const fromAxis = Math.sqrt(x * x + y * y);
  if (!(fromAxis > 0)) return undefined;
  const side = surface.kind === "boss" ? 1 : -1;
  const radial: Vector = [x / fromAxis, y / fromAxis, 0];
  return {
    normal: [side * radial[0], side * radial[1], 0],
    curvature: (a, b) => (side * (a[0] * b[0] + a[1] * b[1] - dot(radial, a) * dot(radial, b))) / fromAxis,
  };
}

/** The derivative of turnAboutZ(v, -angle) by the angle, at the turned vector. */
function quarterTurn([x, y]: Vector): Vector {
  return [y, -x, 0];
}

function secondMove(i: number, j: number, moves: readonly Vector[], seen: Vector): Vector {
  if (i === 3 && j === 3) return [-seen[0], -seen[1], 0];
  if (i === 3 && j < 3) return quarterTurn(moves[j] as Vector);
  if (j === 3 && i < 3) return quarterTurn(moves[i] as Vector);
  return [0, 0, 0];
}
