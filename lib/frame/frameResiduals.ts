import { addMatrix, matrixOf, multiply } from "../base/matrix.ts";
import type { Solver } from "../uncertainty/uncertain.ts";
import type { ContactResidual } from "./contactResidual.ts";
import type { FrameSolver } from "./frameSolver.ts";
import type { Linearisation } from "./linearisation.ts";

/** What is left of every contact's equation when a frame is solved, mm, without the contacts' weights: the residuals as functions of the frame's inputs. */
export class FrameResiduals implements Solver {
  readonly outputCount: number;
  private readonly solver: FrameSolver;

  constructor(solver: FrameSolver) {
    this.solver = solver;
    this.outputCount = solver.contacts.length;
  }

  solve(inputs: Float64Array, outputs: Float64Array): boolean {
    const linear = this.solver.settle(inputs, new Float64Array(this.solver.outputCount));
    if (linear === undefined) return false;
    outputs.set(residualsOf(linear));
    return true;
  }

  sensitivities(inputs: Float64Array): Float64Array {
    const unknowns = new Float64Array(this.solver.outputCount);
    const linear = this.solver.settle(inputs, unknowns);
    if (linear === undefined) throw new Error("FrameResiduals: expected a solution");
    return residualSensitivities(linear, this.solver.sensitivitiesAbout(linear, inputs, unknowns), inputs.length);
  }
}

export function residualsOf({ residuals }: Linearisation): number[] {
  return residuals.map(({ value, byReach }) => -value / byReach);
}

/** What an input does to a residual directly, and what it does through the unknowns: contact × input. */
export function residualSensitivities({ residuals }: Linearisation, unknownsByInput: Float64Array, inputs: number): Float64Array {
  const unknowns = unknownsByInput.length / inputs;
  const at = (i: number) => residuals[i] as ContactResidual;
  const direct = matrixOf(residuals.length, inputs, (i, input) => {
    if (input === 2 * i) return -at(i).byAdvance / at(i).byReach;
    return input === 2 * i + 1 ? -1 : 0;
  });
  const gradients = matrixOf(residuals.length, unknowns, (i, unknown) => -(at(i).gradient[unknown] as number) / at(i).byReach);
  const through = multiply(gradients, { rows: unknowns, columns: inputs, entries: Array.from(unknownsByInput) });
  return Float64Array.from(addMatrix(direct, 1, through).entries);
}
