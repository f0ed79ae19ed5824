// The public surface, in the order in which a setup is thought through.

// What results are made of: outcomes with reasons, budgets by source, distributions.
export { describeProblem, type Outcome, type Problem } from "./base/outcome.ts";
// What touches of a lobed wall take it for.
export { type LobingEffect, lobingEffect } from "./contacts/lobing.ts";
// Whether a measured value conforms to its limits, by which rule, and at whose risk.
export { type Conformance, conformance, type Interval } from "./decision/conformance.ts";
export { type DecisionLimits, decisionLimits } from "./decision/decisionLimits.ts";
export { type GlobalRisk, globalRisk } from "./decision/globalRisk.ts";
export { type NormalKnowledge, normalPosterior } from "./decision/normalPosterior.ts";
// A person's own formulas: text to statements with units and doubts, over anything that the setup knows by name.
export { type SetupQuantity, setupQuantities } from "./decision/setupQuantities.ts";
export { type Verdict, verdict } from "./decision/verdict.ts";
// What differs between two documents, and what that does to the results.
export { type DocumentDifference, differenceOfDocuments, type PlacedSentence } from "./differenceOfDocuments.ts";
// Start here: a setup document in, every result out; its text, and the states that it remembers.
export { documentText } from "./document/documentText.ts";
export { inputsChecksum } from "./document/inputsChecksum.ts";
export { parseDocument } from "./document/parseDocument.ts";
export { documentAtRevision, noteRevision } from "./document/revisions.ts";
export type { SetupDocument } from "./document/setupDocument.ts";
// Parts that were made: what they say of the setup, and how a zero drifts while the machine warms.
export { fitWarmUp, type TimedReading, type WarmUpCurve } from "./drift/warmUpCurve.ts";
export { assuredBefore, bestBefore, driftSince, reZeroPlan, warmEnoughAfter } from "./drift/zeroLife.ts";
// Several operations on one part, and the part that leaves the last of them.
export { evaluateOperations, type OperationsEvaluation } from "./evaluateOperations.ts";
export { evaluateSetup, type SetupEvaluation, type StrategyEvaluation } from "./evaluateSetup.ts";
// The fixture: what locators hold, what their errors do, and a seat by touches.
export { type Layout, layoutOf, type PointContact, turnWeightsOf, weightsOf } from "./fixture/layout.ts";
export { axisLift, lobingFactor } from "./fixture/vBlock.ts";
export { checkStatement } from "./formula/checkStatement.ts";
export { evaluateStatement } from "./formula/evaluateStatement.ts";
export { parseStatement } from "./formula/parseStatement.ts";
export type { StatedDoubt, Statement } from "./formula/statement.ts";
export type { CellValue, ColumnValues, Quantity } from "./ledger/cellValue.ts";
// The controller's offsets: a log and what is in force by it, block text out and back, nests, turned parts, a zero moved without touching again.
export { compareOffsets, type OffsetComparison, type OffsetDifference } from "./offsets/compareOffsets.ts";
export { dialectNotes } from "./offsets/dialectNotes.ts";
export { type MovedZero, movedZero, moveZero } from "./offsets/moveZero.ts";
export { fitNests, type Nest, type NestFit, type NestGrid, nestGrid } from "./offsets/nests.ts";
export { evaluateOffsets, type OffsetsEvaluation, type OffsetsInForce, offsetsAfter } from "./offsets/offsetTable.ts";
export { offsetText, registerDigits } from "./offsets/offsetText.ts";
export { type ReadOffsets, readOffsetText } from "./offsets/readOffsetText.ts";
export { signsAfterTurn, type TurnedPart, turnedOver } from "./offsets/turnedOver.ts";
export { type DecisionRule, type Guard, iso14253Default } from "./part/decisionRule.ts";
// What a drawing permits by naming a standard: general tolerances (ISO 2768-1), tolerance classes (ISO 286-1).
export { generalTolerance, generalToleranceOfAngle, generalToleranceOfEdge } from "./part/generalTolerance.ts";
export { limitsOfClass } from "./part/iso286/limitsOfClass.ts";
export { standardTolerance } from "./part/iso286/standardTolerance.ts";
export { parseToleranceClass, type ToleranceClass } from "./part/iso286/toleranceClass.ts";
export { rationaleOf, type SetupRationale } from "./rationaleOf.ts";
// What leaves the notebook: plain data, a readable sheet, judgement in sentences, cautions; the record and the rationale, and a record that comes back.
export { cautions } from "./record/cautions.ts";
export { judgementSentences } from "./record/judgementSentences.ts";
export type { Paper } from "./record/paper/paper.ts";
export { paperCsv } from "./record/paper/paperCsv.ts";
export { paperText } from "./record/paper/paperText.ts";
export { plainResults } from "./record/plainResults.ts";
export { rationalePaper } from "./record/rationalePaper.ts";
export { recordChecks } from "./record/recordChecks.ts";
export { recordPaper } from "./record/recordPaper.ts";
export { type Replay, replaySetup } from "./record/replaySetup.ts";
export { summaryText } from "./record/summaryText.ts";
export { recordOf, type SetupRecord } from "./recordOf.ts";
export { leastSquaresZero, type MeasuredDemand, sharesAfter, smallestLargestShare } from "./run/bestZero.ts";
export { type ChartConstants, chartConstants } from "./run/chartConstants.ts";
export { type Correction, proposeCorrection } from "./run/proposeCorrection.ts";
export { type Cause, type MeasuredDeviation, separateDeviations, usualCauses, whatWouldSeparate } from "./run/separateDeviations.ts";
export { type RunOfParts, watchRun } from "./run/watchRun.ts";
// What may have slipped: rules over facts, and explanations where evidence disagrees.
export { type Disagreement, explainDisagreement } from "./slips/explain/explainDisagreement.ts";
export { answersTo, lookForSlips, type SlipReport } from "./slips/lookForSlips.ts";
export type { SlipFacts } from "./slips/slipFacts.ts";
export type { SlipRule } from "./slips/slipRule.ts";
export { type Budget, budgetOf, budgetsOf, byFamily, type Contribution } from "./uncertainty/budget.ts";
export { type Conditioned, conditioned } from "./uncertainty/conditioned.ts";
// Results that share sources: stated correlation coefficients in, covariance and joint coverage regions out.
export { correlatedSources } from "./uncertainty/correlatedSources.ts";
export { correlation, correlationsOf, covarianceMatrix, covarianceOfBudgets } from "./uncertainty/covariance.ts";
export { type EllipticalRegion, ellipticalRegion, type RectangularRegion, rectangularRegion } from "./uncertainty/coverageRegion.ts";
export type { ChanceWithError, Distribution } from "./uncertainty/distribution.ts";
export { ellipseCoverage, quickEllipseCoverage } from "./uncertainty/ellipseCoverage.ts";
export { type LinearTerm, linearDistribution } from "./uncertainty/linearDistribution.ts";
export type { RadialTerm } from "./uncertainty/radialDistribution.ts";
export { relativeStandardUncertainty } from "./uncertainty/relativeStandardUncertainty.ts";
export { type SecondOrder, secondOrder, secondOrderMatters } from "./uncertainty/secondOrder.ts";
export { type Family, families, type Source } from "./uncertainty/source.ts";
export { type SourceDistribution, standardUncertaintyOf } from "./uncertainty/sourceDistribution.ts";
// Sources from stated limits: asymmetric, inexactly known, or of a quantity that cannot be negative.
export { betweenInexactLimits, betweenLimits, type EstimatedDistribution, nonNegative } from "./uncertainty/statedLimits.ts";

// Statistics of readings: repeats, quantities read together, lines, groups; means and lines come as values that remember their sources.

export { type ExplainedDifference, explainDifference } from "./uncertainty/explainDifference.ts";
export { type FarthestReading, farthestCritical, farthestReading } from "./uncertainty/farthestReading.ts";
export { harmonicAdjustment } from "./uncertainty/harmonicAdjustment.ts";
export { judgedDegreesOfFreedom } from "./uncertainty/judgedDegreesOfFreedom.ts";
export {
  type GroupedMean,
  type GroupSummary,
  type OneWayAnalysis,
  oneWayAnalysis,
  oneWayAnalysisOfSummaries,
} from "./uncertainty/oneWayAnalysis.ts";
export { fitProportionalLine, type ProportionalLine } from "./uncertainty/proportionalLine.ts";
export { pooledStandardDeviation, type RepeatSummary, summariseRepeats } from "./uncertainty/repeats.ts";
export { scatterInterval } from "./uncertainty/scatterInterval.ts";
export { type SimultaneousMeans, type SimultaneousQuantity, simultaneousReadings } from "./uncertainty/simultaneousReadings.ts";
export { SourceBook } from "./uncertainty/sourceBook.ts";
export { fisherQuantile } from "./uncertainty/special/fisherQuantile.ts";
export { fitStraightLine, type LinePoint, type StraightLine } from "./uncertainty/straightLine.ts";
export { type SuccessiveDifferences, successiveDifferences } from "./uncertainty/successiveDifferences.ts";
export { type ToleranceRequest, toleranceFactor } from "./uncertainty/toleranceFactor.ts";
export type { Uncertain } from "./uncertainty/uncertain.ts";
export { type UncertainLine, uncertainLine } from "./uncertainty/uncertainLine.ts";
