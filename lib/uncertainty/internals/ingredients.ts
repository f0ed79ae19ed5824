import type { SourceDistribution } from "../sourceDistribution.ts";
import { besselJ0 } from "../special/besselJ.ts";
import { studentCharacteristic } from "../special/studentCharacteristic.ts";
import { boxEnvelope } from "./boxEnvelope.ts";
import { type Shape, shapeOf } from "./shape.ts";

/**
 * A weighted sum of independent sources, sorted by what their characteristic functions need. A triangle is the sum of two
 * equal rectangles and a trapezoid of two unequal ones (JCGM 101:2008, 6.4.4.4 and 6.4.5.4), so "boxes" cover all three.
 */
export interface Ingredients {
  /** Variance of all normal terms together. */
  normalVariance: number;
  /** Half-widths of rectangles. */
  boxes: number[];
  /** Half-widths of arcsines. */
  arcsines: number[];
  students: StudentIngredient[];
  /** All others. */
  shaped: ShapedIngredient[];
}

export interface StudentIngredient {
  readonly scale: number;
  readonly degreesOfFreedom: number;
  readonly characteristic: (s: number) => number;
}

export interface ShapedIngredient {
  /** Negative where a skewed source acts the other way round. */
  readonly scale: number;
  readonly shape: Shape;
}

/** Half-widths of the rectangles that a rectangle, triangle or trapezoid is the sum of. */
export function boxesOf(distribution: Extract<SourceDistribution, { shape: "rectangular" | "triangular" | "trapezoidal" }>): number[] {
  const a = distribution.halfWidth;
  switch (distribution.shape) {
    case "rectangular":
      return [a];
    case "triangular":
      return [a / 2, a / 2];
    case "trapezoidal":
      return [(a * (1 + distribution.topRatio)) / 2, (a * (1 - distribution.topRatio)) / 2].filter((half) => half > 0);
  }
}

/** Adds a source, multiplied by `sensitivity`, to the sum. */
export function addSource(to: Ingredients, distribution: SourceDistribution, sensitivity: number): void {
  const factor = Math.abs(sensitivity);
  switch (distribution.shape) {
    case "normal":
      to.normalVariance += (factor * distribution.standardDeviation) ** 2;
      return;
    case "arcsine":
      if (factor * distribution.halfWidth > 0) to.arcsines.push(factor * distribution.halfWidth);
      return;
    case "scaledT": {
      const { degreesOfFreedom } = distribution;
      const scale = factor * distribution.scale;
      if (!(scale > 0)) return;
      if (degreesOfFreedom === Number.POSITIVE_INFINITY) to.normalVariance += scale ** 2;
      else to.students.push({ scale, degreesOfFreedom, characteristic: studentCharacteristic(degreesOfFreedom) });
      return;
    }
    case "curvilinearTrapezoidal":
      if (factor * distribution.halfWidth > 0) to.shaped.push({ scale: factor * distribution.halfWidth, shape: shapeOf(distribution) });
      return;
    case "exponential":
      if (factor * distribution.mean > 0) to.shaped.push({ scale: sensitivity * distribution.mean, shape: shapeOf(distribution) });
      return;
    default:
      for (const half of boxesOf(distribution)) if (factor * half > 0) to.boxes.push(factor * half);
  }
}

export function noIngredients(): Ingredients {
  return { normalVariance: 0, boxes: [], arcsines: [], students: [], shaped: [] };
}

/**
 * The characteristic function at s > 0: the product of those of the terms (rectangle sin(as)/(as), arcsine J0(as)); where some are skewed, its modulus
 * with a sign, to which `angleAt` belongs.
 */
export function characteristicAt({ normalVariance, boxes, arcsines, students, shaped }: Ingredients, s: number): number {
  let product = Math.exp(-0.5 * normalVariance * s * s);
  if (product < negligible) return 0;
  for (const half of boxes) {
    const x = half * s;
    if (x > 0) product *= Math.sin(x) / x;
  }
  if (Math.abs(product) < negligible) return 0;
  for (const { scale, characteristic } of students) product *= characteristic(scale * s);
  for (const half of arcsines) product *= besselJ0(half * s);
  for (const { scale, shape } of shaped) product *= shape.modulus(Math.abs(scale) * s);
  return product;
}

/** The angle of the characteristic function at s > 0; 0 where all terms are symmetric. */
export function angleAt({ shaped }: Ingredients, s: number): number {
  let angle = 0;
  for (const { scale, shape } of shaped) if (shape.angle) angle += Math.sign(scale) * shape.angle(Math.abs(scale) * s);
  return angle;
}

/** Whether some of the terms are skewed, so that `angleAt` is not 0. */
export function isSkewed({ shaped }: { readonly shaped: readonly { readonly shape: Shape }[] }): boolean {
  return shaped.some(({ shape }) => shape.angle !== undefined);
}

/**
 * A bound of the characteristic function that never rises. Rectangle: `boxEnvelope`. Arcsine: e^(-x²/4), 0.4028, √(2/πx) likewise for J0
 * (DLMF 10.21.15, 10.14.1, 10.17.3).
 */
export function envelopeAt({ normalVariance, boxes, arcsines, students, shaped }: Ingredients, s: number): number {
  let product = Math.exp(-0.5 * normalVariance * s * s);
  for (const half of boxes) product *= boxEnvelope(half * s);
  for (const half of arcsines) {
    const x = half * s;
    product *= Math.max(x < 3 ? Math.exp((-x * x) / 4) : 0, Math.min(0.4028, Math.sqrt(2 / (Math.PI * x))));
  }
  for (const { scale, characteristic } of students) if (product > 1e-40) product *= characteristic(scale * s);
  for (const { scale, shape } of shaped) if (product > 1e-40) product *= shape.envelope(Math.abs(scale) * s);
  return product;
}

/** Below this a factor cannot be seen in any sum of a few hundred terms. */
const negligible = 1e-18;
