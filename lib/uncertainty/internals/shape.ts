import type { SourceDistribution } from "../sourceDistribution.ts";
import { curvilinearShape } from "./curvilinearShape.ts";
import { exponentialShape } from "./exponentialShape.ts";

/**
 * A distribution of scale 1 and expectation 0 by its characteristic function φ(x) = modulus(x) e^(i angle(x)), and what the ways to invert it have to
 * know. Distributions that are told by a few numbers in the innermost loops (rectangles, arcsines, t) have their own places instead.
 */
export interface Shape {
  /** The distribution of scale 1. */
  readonly distribution: SourceDistribution;
  readonly variance: number;
  /** Fourth cumulant over the squared variance. */
  readonly excess: number;
  /** Magnitude of the least and the largest deviation; `Infinity` without an end. */
  readonly lower: number;
  readonly upper: number;
  /** Real, for x > 0; may change its sign. */
  modulus(x: number): number;
  /** For x > 0, continuous from 0; odd. Undefined for a symmetric distribution, where it is 0. */
  readonly angle?: (x: number) => number;
  /** A bound of |modulus| that never rises. */
  envelope(x: number): number;
  /** A bound of ln E e^(tX); `Infinity` where there is none. */
  logMoment(t: number): number;
}

/** The shape of a distribution, whatever its scale. */
export function shapeOf(distribution: Extract<SourceDistribution, { shape: "curvilinearTrapezoidal" | "exponential" }>): Shape {
  return distribution.shape === "exponential" ? exponentialShape : curvilinearShape(distribution.topRatio);
}
