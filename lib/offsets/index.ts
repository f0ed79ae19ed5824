// The controller's offsets: a log and what is in force by it, block text out and back, nests, turned parts, a zero moved without touching again.

export { compareOffsets, type OffsetComparison, type OffsetDifference } from "./compareOffsets.ts";
export { dialectNotes } from "./dialectNotes.ts";
export { type MovedZero, movedZero, moveZero } from "./moveZero.ts";
export { fitNests, type Nest, type NestFit, type NestGrid, nestGrid } from "./nests.ts";
export { evaluateOffsets, type OffsetsEvaluation, type OffsetsInForce, offsetsAfter } from "./offsetTable.ts";
export { offsetText, registerDigits } from "./offsetText.ts";
export { type ReadOffsets, readOffsetText } from "./readOffsetText.ts";
export { signsAfterTurn, type TurnedPart, turnedOver } from "./turnedOver.ts";
