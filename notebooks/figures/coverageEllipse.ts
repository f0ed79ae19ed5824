import type { Budget } from "../../lib/uncertainty/budget.ts";
import { correlation, covarianceMatrix } from "../../lib/uncertainty/covariance.ts";
import { ellipticalRegion } from "../../lib/uncertainty/coverageRegion.ts";

/** An ellipse about the best estimates of X and Y, in their unit. */
export interface CoverageEllipse {
  /** Semi-axes. */
  readonly major: number;
  readonly minor: number;
  /** From X to the major axis, anticlockwise, radians. */
  readonly angle: number;
  /** 0 where one of the two is exact. */
  readonly correlation: number;
}

/** The region that holds X and Y together with the given probability when both are normal, as figures draw it. */
export function coverageEllipse(x: Budget, y: Budget, probability: number): CoverageEllipse {
  const { halfAxes, angle } = ellipticalRegion(covarianceMatrix([x, y]), probability);
  const [major, minor] = halfAxes as readonly [number, number];
  return { major, minor, angle: angle as number, correlation: correlation(x, y) };
}
