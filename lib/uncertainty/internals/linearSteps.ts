import type { Step } from "./step.ts";

/** 1 for every step that is a sum of sources with fixed factors, or a constant; 0 for the others, also where their bend happens to cancel. */
export function linearSteps(steps: readonly Step[]): Uint8Array {
  const linear = new Uint8Array(steps.length);
  const fixed = new Uint8Array(steps.length);
  steps.forEach((step, position) => {
    fixed[position] = isFixed(step, fixed) ? 1 : 0;
    linear[position] = fixed[position] || isLinear(step, linear, fixed) ? 1 : 0;
  });
  return linear;
}

/** The same in all trials. */
function isFixed(step: Step, fixed: Uint8Array): boolean {
  switch (step.kind) {
    case "constant":
      return true;
    case "unary":
      return fixed[step.operand] === 1;
    case "binary":
      return fixed[step.left] === 1 && fixed[step.right] === 1;
    default:
      return false;
  }
}

function isLinear(step: Step, linear: Uint8Array, fixed: Uint8Array): boolean {
  switch (step.kind) {
    case "source":
      return true;
    case "unary":
      return step.name === "negate" && linear[step.operand] === 1;
    case "binary": {
      const both = linear[step.left] === 1 && linear[step.right] === 1;
      switch (step.name) {
        case "add":
        case "subtract":
          return both;
        case "multiply":
          return both && (fixed[step.left] === 1 || fixed[step.right] === 1);
        case "divide":
          return both && fixed[step.right] === 1;
        default:
          return false;
      }
    }
    default:
      return false;
  }
}
