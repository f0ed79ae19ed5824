import { failure, type Outcome, success } from "../base/outcome.ts";
import type { StrategyEvaluation } from "../decision/setupEvaluation.ts";
import { independentTerms } from "../tolerance/independentTerms.ts";
import type { Budget } from "../uncertainty/budget.ts";
import { correlation, covarianceMatrix } from "../uncertainty/covariance.ts";
import { type EllipticalRegion, ellipticalRegion, type RectangularRegion, rectangularRegion } from "../uncertainty/coverageRegion.ts";
import type { ChanceWithError } from "../uncertainty/distribution.ts";
import { quickEllipseCoverage } from "../uncertainty/ellipseCoverage.ts";
import type { RadialTerm } from "../uncertainty/radialDistribution.ts";
import { coverageProbability } from "./expandedUncertainty.ts";

/** Where X and Y of part zero lie together. */
export interface ZeroRegions {
  /** Of X and Y; 0 where one of them is exact. */
  readonly correlation: number;
  /** As if both were normal. */
  readonly ellipse: EllipticalRegion;
  /** Chance that the ellipse holds the zero by the sources' own distributions; undefined where it would take long to work out. */
  readonly ellipseCoverage: ChanceWithError | undefined;
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
    ellipseCoverage: quickEllipseCoverage(ellipse, jointTerms(x.value, y.value)),
    rectangle: rectangularRegion(covariance, coverageProbability),
  });
}

/** What moves X and Y, each source once: both budgets come from one computation and share its list of sources. */
function jointTerms(x: Budget, y: Budget): RadialTerm[] {
  const effects = x.sources.flatMap((source, i) => {
    const sensitivities = [x.sensitivities[i] as number, y.sensitivities[i] as number];
    return sensitivities.some((sensitivity) => sensitivity !== 0) ? [{ source, sensitivities }] : [];
  });
  return independentTerms(effects).map(({ sensitivities: [a, b], distribution }) => ({
    coefficient: [a as number, b as number],
    distribution,
  }));
}
