import type { SourceDistribution } from "../sourceDistribution.ts";

/** @throws RangeError if a parameter of the distribution is out of its range */
export function checkSource(distribution: SourceDistribution): void {
  switch (distribution.shape) {
    case "normal":
      checkSize("standardDeviation", distribution.standardDeviation);
      return;
    case "scaledT":
      checkSize("scale", distribution.scale);
      if (!(distribution.degreesOfFreedom > 0))
        throw new RangeError(`degreesOfFreedom: expected > 0, got ${distribution.degreesOfFreedom}`);
      return;
    case "trapezoidal":
    case "curvilinearTrapezoidal":
      checkSize("halfWidth", distribution.halfWidth);
      if (!(distribution.topRatio >= 0 && distribution.topRatio <= 1))
        throw new RangeError(`topRatio: expected 0 to 1, got ${distribution.topRatio}`);
      return;
    case "exponential":
      checkSize("mean", distribution.mean);
      return;
    default:
      checkSize("halfWidth", distribution.halfWidth);
  }
}

function checkSize(name: string, size: number): void {
  if (!(size >= 0 && size < Number.POSITIVE_INFINITY)) throw new RangeError(`${name}: expected finite and >= 0, got ${size}`);
}
