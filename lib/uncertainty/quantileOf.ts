import type { SourceDistribution } from "./sourceDistribution.ts";
import { curvilinearTailQuantile } from "./special/curvilinearTrapezoid.ts";
import { normalQuantile } from "./special/normalQuantile.ts";
import { studentQuantile } from "./special/studentT.ts";

/**
 * Quantile of a source's deviation from its estimate, in the source's unit.
 *
 * Rectangular, triangular, trapezoidal, arcsine and exponential in closed form (inverses of
 * the distribution functions in JCGM 101:2008, 6.4.2 to 6.4.6 and 6.4.10).
 *
 * @param probability within (0, 1)
 */
export function quantileOf(distribution: SourceDistribution, probability: number): number {
  if (!(probability > 0 && probability < 1)) throw new RangeError(`probability: expected a number in (0, 1), got ${probability}`);
  switch (distribution.shape) {
    case "normal":
      return distribution.standardDeviation * normalQuantile(probability);
    case "rectangular":
      return distribution.halfWidth * (2 * probability - 1);
    case "triangular":
      return distribution.halfWidth * trapezoidQuantile(probability, 0);
    case "trapezoidal":
      return distribution.halfWidth * trapezoidQuantile(probability, distribution.topRatio);
    case "curvilinearTrapezoidal": {
      const magnitude = curvilinearTailQuantile(Math.min(probability, 1 - probability), distribution.topRatio);
      return distribution.halfWidth * (probability < 0.5 ? -magnitude : magnitude);
    }
    case "arcsine":
      return distribution.halfWidth * Math.sin(Math.PI * (probability - 0.5));
    case "scaledT":
      return distribution.scale * studentQuantile(probability, distribution.degreesOfFreedom);
    case "exponential":
      return distribution.mean * (-Math.log1p(-probability) - 1);
  }
}

/** Of the trapezoid on [-1, 1] whose top reaches from -top to top. */
function trapezoidQuantile(probability: number, top: number): number {
  const lower = Math.min(probability, 1 - probability);
  const slopeShare = (1 - top) / (2 * (1 + top));
  const magnitude = lower <= slopeShare ? 1 - Math.sqrt(2 * lower * (1 - top * top)) : (1 + top) * (0.5 - lower);
  return probability < 0.5 ? -magnitude : magnitude;
}
