import { operandsOfStep, type Step } from "./step.ts";

/** By source: whether any step behind it is not linear in it. A solved step counts as one that is not. */
export function curvedSources(steps: readonly Step[], sourceCount: number): boolean[] {
  const curved = new Array<boolean>(sourceCount).fill(false);
  const leadsToCurved = new Uint8Array(steps.length);
  for (let position = steps.length - 1; position >= 0; position--) {
    const step = steps[position] as Step;
    if (step.kind === "source" && leadsToCurved[position]) curved[step.source] = true;
    if (leadsToCurved[position] || !isLinear(step, steps)) for (const operand of operandsOfStep(step)) leadsToCurved[operand] = 1;
  }
  return curved;
}

function isLinear(step: Step, steps: readonly Step[]): boolean {
  const isConstant = (position: number) => steps[position]?.kind === "constant";
  switch (step.kind) {
    case "constant":
    case "source":
      return true;
    case "unary":
      return step.name === "negate";
    case "binary":
      switch (step.name) {
        case "add":
        case "subtract":
          return true;
        case "multiply":
          return isConstant(step.left) || isConstant(step.right);
        case "divide":
          return isConstant(step.right);
        default:
          return false;
      }
    case "solved":
      return false;
  }
}
