// What a drawing permits by naming a standard: general tolerances (ISO 2768-1), tolerance classes (ISO 286-1), the rule of decision (ISO 14253-1).

export { type DecisionRule, type Guard, iso14253Default } from "./decisionRule.ts";
export { generalTolerance, generalToleranceOfAngle, generalToleranceOfEdge } from "./generalTolerance.ts";
export { limitsOfClass } from "./iso286/limitsOfClass.ts";
export { standardTolerance } from "./iso286/standardTolerance.ts";
export { parseToleranceClass, type ToleranceClass } from "./iso286/toleranceClass.ts";
