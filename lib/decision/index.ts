// Whether a measured value conforms to its limits, by which rule, and at whose risk; what a setup knows by name.

export { type Conformance, conformance, type Interval } from "./conformance.ts";
export { type DecisionLimits, decisionLimits } from "./decisionLimits.ts";
export { type GlobalRisk, globalRisk } from "./globalRisk.ts";
export { type NormalKnowledge, normalPosterior } from "./normalPosterior.ts";
export { type SetupQuantity, setupQuantities } from "./setupQuantities.ts";
export { type Verdict, verdict } from "./verdict.ts";
