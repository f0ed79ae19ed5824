// What every result is made of: an outcome with its reasons.

export { describeProblem, type Outcome, type Problem } from "./outcome.ts";
