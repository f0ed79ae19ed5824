// Sources, values that remember them, budgets, covariance and coverage, distributions; statistics of readings, of which means and lines come as values that
// remember their sources.

export { type Budget, budgetOf, budgetsOf, byFamily, type Contribution } from "./budget.ts";
export { type Conditioned, conditioned } from "./conditioned.ts";
export { correlatedSources } from "./correlatedSources.ts";
export { correlation, correlationsOf, covarianceMatrix, covarianceOfBudgets } from "./covariance.ts";
export { type EllipticalRegion, ellipticalRegion, type RectangularRegion, rectangularRegion } from "./coverageRegion.ts";
export type { ChanceWithError, Distribution } from "./distribution.ts";
export { ellipseCoverage, quickEllipseCoverage } from "./ellipseCoverage.ts";
export { type ExplainedDifference, explainDifference } from "./explainDifference.ts";
export { type FarthestReading, farthestCritical, farthestReading } from "./farthestReading.ts";
export { harmonicAdjustment } from "./harmonicAdjustment.ts";
export { judgedDegreesOfFreedom } from "./judgedDegreesOfFreedom.ts";
export { type LinearTerm, linearDistribution } from "./linearDistribution.ts";
export { type GroupedMean, type GroupSummary, type OneWayAnalysis, oneWayAnalysis, oneWayAnalysisOfSummaries } from "./oneWayAnalysis.ts";
export { fitProportionalLine, type ProportionalLine } from "./proportionalLine.ts";
export type { RadialTerm } from "./radialDistribution.ts";
export { relativeStandardUncertainty } from "./relativeStandardUncertainty.ts";
export { pooledStandardDeviation, type RepeatSummary, summariseRepeats } from "./repeats.ts";
export { scatterInterval } from "./scatterInterval.ts";
export { type SecondOrder, secondOrder, secondOrderMatters } from "./secondOrder.ts";
export { type SimultaneousMeans, type SimultaneousQuantity, simultaneousReadings } from "./simultaneousReadings.ts";
export { type Family, families, type Source } from "./source.ts";
export { SourceBook } from "./sourceBook.ts";
export { type SourceDistribution, standardUncertaintyOf } from "./sourceDistribution.ts";
export { fisherQuantile } from "./special/fisherQuantile.ts";
export { betweenInexactLimits, betweenLimits, type EstimatedDistribution, nonNegative } from "./statedLimits.ts";
export { fitStraightLine, type LinePoint, type StraightLine } from "./straightLine.ts";
export { type SuccessiveDifferences, successiveDifferences } from "./successiveDifferences.ts";
export { type ToleranceRequest, toleranceFactor } from "./toleranceFactor.ts";
export type { Uncertain } from "./uncertain.ts";
export { type UncertainLine, uncertainLine } from "./uncertainLine.ts";
