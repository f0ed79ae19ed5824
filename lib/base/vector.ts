/** A point or a direction in space: X, Y, Z. */
export type Vector = readonly [x: number, y: number, z: number];

export const axes = ["X", "Y", "Z"] as const;
export type Axis = (typeof axes)[number];

/** 0 for X, 1 for Y, 2 for Z. */
export function indexOfAxis(axis: Axis): 0 | 1 | 2 {
  return axis === "X" ? 0 : axis === "Y" ? 1 : 2;
}

/** A direction along a machine axis, as it is written: `+X`, `-Y`. */
export type AxisDirection = `${"+" | "-"}${Axis}`;

export function unitVector(direction: AxisDirection): Vector {
  const sign = direction[0] === "+" ? 1 : -1;
  const axis = indexOfAxis(direction[1] as Axis);
  return [axis === 0 ? sign : 0, axis === 1 ? sign : 0, axis === 2 ? sign : 0];
}

/** The same line, the other way: `+X` for `-X`. */
export function opposite(direction: AxisDirection): AxisDirection {
  return `${direction[0] === "+" ? "-" : "+"}${direction[1] as Axis}`;
}

export function axisOf(direction: AxisDirection): Axis {
  return direction[1] as Axis;
}

export function dot(a: Vector, b: Vector): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

/** a + factor · b */
export function addScaled(a: Vector, factor: number, b: Vector): Vector {
  return [a[0] + factor * b[0], a[1] + factor * b[1], a[2] + factor * b[2]];
}

/** The vector turned about Z by the angle (anticlockwise seen from +Z, ISO 841), in radians. */
export function turnAboutZ([x, y, z]: Vector, angle: number): Vector {
  const cosine = Math.cos(angle);
  const sine = Math.sin(angle);
  return [cosine * x - sine * y, sine * x + cosine * y, z];
}

/** a × b, right-handed. */
export function cross(a: Vector, b: Vector): Vector {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}

export function lengthOfVector(a: Vector): number {
  return Math.hypot(a[0], a[1], a[2]);
}
