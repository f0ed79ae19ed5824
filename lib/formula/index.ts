// A person's own formulas: text to statements with units and doubts, over anything that a setup knows by name.

export { checkStatement } from "./checkStatement.ts";
export { evaluateStatement } from "./evaluateStatement.ts";
export { parseStatement } from "./parseStatement.ts";
export type { StatedDoubt, Statement } from "./statement.ts";
