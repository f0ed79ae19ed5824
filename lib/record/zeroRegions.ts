import { failure, type Outcome, success } from "../base/outcome.ts";
import type { StrategyEvaluation } from "../decision/setupEvaluation.ts";
import { correlation, covarianceMatrix } from "../uncertainty/covariance.ts";
import { type EllipticalRegion, ellipticalRegion, type RectangularRegion, rectangularRegion } from "../uncertainty/coverageRegion.ts";
import { coverageProbability } from "./expandedUncertainty.ts";

/** Where X and Y of part zero lie together. */
export interface ZeroRegions {
  /** Of X and Y; 0 where one of them is exact. */
  readonly correlation: number;
  /** As if both were normal. */
  readonly ellipse: EllipticalRegion;
  /** As if both were normal. */
  readonly rectangle: RectangularRegion;
}

/** The regions that hold X and Y of a strategy's zero together with the coverage probability of every record; the problems of the two where one is not known. */
export function zeroRegions({ zero: [x, y] }: StrategyEvaluation): Outcome<ZeroRegions> {
  if (!x.ok || !y.ok) return failure(...[x, y].flatMap((axis) => (axis.ok ? [] : axis.problems)));
  const covariance = covarianceMatrix([x.value, y.value]);
  const ellipse = ellipticalRegion(covariance, coverageProbability);
  return success({
    correlation: correlation(x.value, y.value),
    ellipse,
    rectangle: rectangularRegion(covariance, coverageProbability),
  });
}
