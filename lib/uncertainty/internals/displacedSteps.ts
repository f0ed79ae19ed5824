import { binaryValue, Solution, unaryValue } from "../uncertain.ts";
import type { SolvedWork, Step } from "./step.ts";

/** The steps with the sources at the given values: every value worked out anew, every solved step solved again; NaN where it has no solution. */
export function displacedSteps(steps: readonly Step[], values: Float64Array): Step[] {
  const displaced: Step[] = [];
  const works = new Map<SolvedWork, SolvedWork>();
  const valueAt = (position: number) => (displaced[position] as Step).value;
  const solvedAgain = (work: SolvedWork): SolvedWork => {
    const known = works.get(work);
    if (known !== undefined) return known;
    const again = { ...work, solution: solutionAt(work, Float64Array.from(work.inputs, valueAt)) };
    works.set(work, again);
    return again;
  };
  for (const step of steps) displaced.push(displacedStep(step, values, valueAt, solvedAgain));
  return displaced;
}

function displacedStep(
  step: Step,
  values: Float64Array,
  valueAt: (position: number) => number,
  solvedAgain: (work: SolvedWork) => SolvedWork,
): Step {
  switch (step.kind) {
    case "constant":
      return step;
    case "source":
      return { ...step, value: values[step.source] as number };
    case "unary":
      return { ...step, value: unaryValue(step.name, valueAt(step.operand)) };
    case "binary":
      return { ...step, value: binaryValue(step.name, valueAt(step.left), valueAt(step.right)) };
    case "solved": {
      const work = solvedAgain(step.work);
      return { ...step, work, value: work.solution.values[step.index] as number };
    }
  }
}

function solutionAt({ solution: { solver, inputs: operands } }: SolvedWork, inputs: Float64Array): Solution {
  const values = new Float64Array(solver.outputCount);
  const isSolved = inputs.every(Number.isFinite) && solver.solve(inputs, values) && values.every(Number.isFinite);
  const derivatives = isSolved ? solver.sensitivities(inputs, values) : new Float64Array(values.length * inputs.length).fill(Number.NaN);
  return new Solution(solver, operands, { values: isSolved ? values : values.fill(Number.NaN), derivatives });
}
