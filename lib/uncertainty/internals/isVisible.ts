import { type SourceDistribution, standardUncertaintyOf } from "../sourceDistribution.ts";

/**
 * Whether a source, its scale multiplied by `factor` and all measured in units of the largest standard uncertainty, can change a chance by
 * about `smallest`. A bounded or normal one moves the chance by its own size at most times the density; of a t with fewer than one degree
 * of freedom more than that lies far away.
 */
export function isVisible(distribution: SourceDistribution, factor: number, smallest: number): boolean {
  const size = factor * standardUncertaintyOf(distribution);
  return distribution.shape === "scaledT" ? size ** Math.min(1, distribution.degreesOfFreedom) > smallest : size > smallest;
}
