// Parts that were made: what they say of the setup, what to correct, the best zero.

export { leastSquaresZero, type MeasuredDemand, sharesAfter, smallestLargestShare } from "./bestZero.ts";
export { type ChartConstants, chartConstants } from "./chartConstants.ts";
export { type Correction, proposeCorrection } from "./proposeCorrection.ts";
export { type Cause, type MeasuredDeviation, separateDeviations, usualCauses, whatWouldSeparate } from "./separateDeviations.ts";
export { type RunOfParts, watchRun } from "./watchRun.ts";
