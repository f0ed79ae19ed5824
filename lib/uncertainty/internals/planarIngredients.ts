import type { SourceDistribution } from "../sourceDistribution.ts";
import { besselJ0 } from "../special/besselJ.ts";
import type { Covariance2, Vector2 } from "./chords.ts";
import { addSource, type Ingredients, noIngredients } from "./ingredients.ts";
import type { Shape } from "./shape.ts";

/** A sum of independent sources, each moving a point of the plane along its own vector. */
export interface PlanarIngredients {
  /** Covariance of all normal terms together. */
  readonly normal: Covariance2;
  readonly boxes: readonly Vector2[];
  readonly arcsines: readonly Vector2[];
  readonly students: readonly PlanarStudent[];
  /** All others. */
  readonly shaped: readonly PlanarShaped[];
}

export interface PlanarStudent {
  readonly scale: Vector2;
  readonly degreesOfFreedom: number;
  readonly characteristic: (s: number) => number;
}

export interface PlanarShaped {
  readonly scale: Vector2;
  readonly shape: Shape;
}

export interface PlanarTerm {
  readonly coefficient: Vector2;
  readonly distribution: SourceDistribution;
}

export function planarIngredients(terms: readonly PlanarTerm[]): PlanarIngredients {
  let normal: Covariance2 = [0, 0, 0];
  const boxes: Vector2[] = [];
  const arcsines: Vector2[] = [];
  const students: PlanarStudent[] = [];
  const shaped: PlanarShaped[] = [];
  for (const { coefficient, distribution } of terms) {
    const size = Math.hypot(...coefficient);
    if (!(size > 0)) continue;
    const [x, y] = [coefficient[0] / size, coefficient[1] / size];
    const along: Ingredients = noIngredients();
    addSource(along, distribution, size);
    normal = [normal[0] + along.normalVariance * x * x, normal[1] + along.normalVariance * x * y, normal[2] + along.normalVariance * y * y];
    for (const half of along.boxes) boxes.push([half * x, half * y]);
    for (const half of along.arcsines) arcsines.push([half * x, half * y]);
    for (const { scale, degreesOfFreedom, characteristic } of along.students)
      students.push({ scale: [scale * x, scale * y], degreesOfFreedom, characteristic });
    for (const { scale, shape } of along.shaped) shaped.push({ scale: [scale * x, scale * y], shape });
  }
  return { normal, boxes, arcsines, students, shaped };
}

/** The same sum seen through the linear form (x, y) · form. */
export function projected({ normal, boxes, arcsines, students, shaped }: PlanarIngredients, form: Vector2): Ingredients {
  const signed = (vector: Vector2) => vector[0] * form[0] + vector[1] * form[1];
  const through = (vector: Vector2) => Math.abs(signed(vector));
  return {
    normalVariance: Math.max(0, normal[0] * form[0] * form[0] + 2 * normal[1] * form[0] * form[1] + normal[2] * form[1] * form[1]),
    boxes: boxes.map(through),
    arcsines: arcsines.map(through),
    students: students.map(({ scale, degreesOfFreedom, characteristic }) => ({ scale: through(scale), degreesOfFreedom, characteristic })),
    // One that acts square to the form would reach 0 · ∞.
    shaped: shaped.flatMap(({ scale, shape }) => (signed(scale) !== 0 ? [{ scale: signed(scale), shape }] : [])),
  };
}

/** The joint characteristic function at (s, t), or its modulus with a sign: as `characteristicAt`, without building the projection. */
export function planarCharacteristicAt({ normal, boxes, arcsines, students, shaped }: PlanarIngredients, s: number, t: number): number {
  let product = Math.exp(-0.5 * (normal[0] * s * s + 2 * normal[1] * s * t + normal[2] * t * t));
  if (product < negligible) return 0;
  for (const half of boxes) {
    const x = half[0] * s + half[1] * t;
    if (x !== 0) product *= Math.sin(x) / x;
  }
  if (Math.abs(product) < negligible) return 0;
  for (const { scale, characteristic } of students) product *= characteristic(Math.abs(scale[0] * s + scale[1] * t));
  for (const half of arcsines) product *= besselJ0(half[0] * s + half[1] * t);
  for (const { scale, shape } of shaped) product *= shape.modulus(Math.abs(scale[0] * s + scale[1] * t));
  return product;
}

/** The angle of the joint characteristic function at (s, t): as `angleAt`. */
export function planarAngleAt({ shaped }: PlanarIngredients, s: number, t: number): number {
  let angle = 0;
  for (const { scale, shape } of shaped) {
    const x = scale[0] * s + scale[1] * t;
    if (shape.angle) angle += Math.sign(x) * shape.angle(Math.abs(x));
  }
  return angle;
}

/**
 * Covariance in which a t term counts with its own variance c²ν/(ν - 2), or at most `heavyVariance` c² where that is larger or does
 * not exist.
 */
export function planarCovariance({ normal, boxes, arcsines, students, shaped }: PlanarIngredients, heavyVariance: number): Covariance2 {
  let [xx, xy, yy] = normal;
  const add = ([x, y]: Vector2, variance: number) => {
    xx += variance * x * x;
    xy += variance * x * y;
    yy += variance * y * y;
  };
  for (const half of boxes) add(half, 1 / 3);
  for (const half of arcsines) add(half, 1 / 2);
  for (const { scale, shape } of shaped) add(scale, shape.variance);
  for (const { scale, degreesOfFreedom } of students) {
    add(scale, degreesOfFreedom > 2 ? Math.min(heavyVariance, degreesOfFreedom / (degreesOfFreedom - 2)) : heavyVariance);
  }
  return [xx, xy, yy];
}

/** Below this a factor cannot be seen in any sum of a few thousand terms. */
const negligible = 1e-16;
