// The public surface, in the order in which a setup is thought through. Each stage has an index of its own, which is an entry of the package as well.

// Start here: a setup document in, every result out.

export { type DocumentDifference, differenceOfDocuments, type PlacedSentence } from "./differenceOfDocuments.ts";
export * from "./document/index.ts";
export { evaluateOperations, type OperationsEvaluation } from "./evaluateOperations.ts";
export { evaluateSetup, type SetupEvaluation, type StrategyEvaluation } from "./evaluateSetup.ts";
export { rationaleOf, type SetupRationale } from "./rationaleOf.ts";
export { recordOf, type SetupRecord } from "./recordOf.ts";

// What results are made of: outcomes with reasons, sources of doubt, values that remember them.

export * from "./base/index.ts";
export * from "./uncertainty/index.ts";

// A machine that warms, and parts that were made.

export * from "./drift/index.ts";
export * from "./run/index.ts";

// Formulas and cells of a person's own.

export * from "./formula/index.ts";
export * from "./ledger/index.ts";

// The part, touches, the fixture, the controller's offsets.

export * from "./contacts/index.ts";
export * from "./fixture/index.ts";
export * from "./offsets/index.ts";
export * from "./part/index.ts";

// Judgement: conformity, and slips.

export * from "./decision/index.ts";
export * from "./slips/index.ts";

// What leaves the notebook.

export * from "./exchange/index.ts";
export * from "./record/index.ts";
