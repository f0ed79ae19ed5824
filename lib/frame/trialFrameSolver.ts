import { leastSquares } from "../base/leastSquares.ts";
import type { Solver } from "../uncertainty/uncertain.ts";
import { type ContactGeometry, contactResidual, poseUnknowns } from "./contactResidual.ts";
import { FrameSolver, type SizeRule } from "./frameSolver.ts";
import { freeDirections, type Linearisation, unweightedColumnsOf } from "./linearisation.ts";

const mostSteps = 12;
/** The step after one of this size, mm, is some thousandth of it. */
const settled = 1e-9;

/**
 * A frame solved over and over for inputs that differ by small errors: the answer of `FrameSolver` to rounding, some 1e-12 mm, at a tenth of its cost.
 *
 * Where the contacts determine all unknowns that they touch, the preferred sizes among them, the fit is plain least squares: Gauss-Newton steps on
 * exact residuals and gradients at every trial, without a search for what is free. Where they do not, a step does not shrink, or nothing is found,
 * `FrameSolver` answers.
 */
export class TrialFrameSolver implements Solver {
  readonly outputCount: number;
  private readonly full: FrameSolver;
  private readonly start: Float64Array;
  /** The contacts that count most come first: least squares keeps its accuracy so. */
  private readonly order: readonly number[];
  private readonly contacts: readonly ContactGeometry[];
  private readonly sizeCount: number;
  /** Unknowns that the contacts find, the others keep their given values; undefined where that is not all there is to it. */
  private readonly found: readonly number[] | undefined;
  private readonly units: Float64Array;
  private readonly pose = { origin: [0, 0, 0] as [number, number, number], rotation: 0 };
  private readonly sizes: Float64Array;
  private readonly columns: Float64Array;
  private readonly residuals: Float64Array;
  private readonly step: Float64Array;

  /**
   * @param start the unknowns at the estimate
   * @param linear the equations about them
   */
  constructor(
    contacts: readonly ContactGeometry[],
    sizes: readonly SizeRule[],
    rotates: boolean,
    start: Float64Array,
    linear: Linearisation,
  ) {
    this.full = new FrameSolver(contacts, sizes, rotates, start);
    this.outputCount = this.full.outputCount;
    this.start = start;
    this.contacts = contacts;
    this.order = contacts.map((_, i) => i).sort((i, j) => weightOf(contacts, j) - weightOf(contacts, i) || i - j);
    this.sizeCount = sizes.length;
    this.units = linear.units;
    this.found = determinedUnknowns(linear);
    const count = this.found?.length ?? 0;
    this.sizes = new Float64Array(sizes.length);
    this.columns = new Float64Array(contacts.length * count);
    this.residuals = new Float64Array(contacts.length);
    this.step = new Float64Array(count);
  }

  solve(inputs: Float64Array, outputs: Float64Array): boolean {
    return (this.found !== undefined && this.solveNear(this.found, inputs, outputs)) || this.full.solve(inputs, outputs);
  }

  sensitivities(inputs: Float64Array, outputs: Float64Array): Float64Array {
    return this.full.sensitivities(inputs, outputs);
  }

  private solveNear(found: readonly number[], inputs: Float64Array, outputs: Float64Array): boolean {
    const { start, contacts, sizeCount, units, step } = this;
    for (let k = 0; k < poseUnknowns; k++) outputs[k] = start[k] as number;
    for (let s = 0; s < sizeCount; s++) outputs[poseUnknowns + s] = inputs[2 * contacts.length + s] as number;
    for (let k = 0; k < found.length; k++) outputs[found[k] as number] = start[found[k] as number] as number;
    let before = Number.POSITIVE_INFINITY;
    for (let iteration = 0; iteration < mostSteps; iteration++) {
      if (!this.lineariseAt(found, inputs, outputs)) return false;
      if (!leastSquares(contacts.length, found.length, this.columns, this.residuals, step)) return false;
      let largest = 0;
      for (let k = 0; k < found.length; k++) {
        const unknown = found[k] as number;
        outputs[unknown] = (outputs[unknown] as number) - (step[k] as number) * (units[unknown] as number);
        largest = Math.max(largest, Math.abs(step[k] as number));
      }
      if (largest <= settled) return true;
      if (!(largest < before)) return false;
      before = largest;
    }
    return false;
  }

  /** Residuals and scaled columns at the unknowns; false where a tool stands on the axis of a round wall. */
  private lineariseAt(found: readonly number[], inputs: Float64Array, outputs: Float64Array): boolean {
    const { pose, sizes, contacts, order, units } = this;
    for (let axis = 0; axis < 3; axis++) pose.origin[axis] = outputs[axis] as number;
    pose.rotation = outputs[3] as number;
    for (let s = 0; s < sizes.length; s++) sizes[s] = outputs[poseUnknowns + s] as number;
    for (let row = 0; row < order.length; row++) {
      const i = order[row] as number;
      const residual = contactResidual(contacts[i] as ContactGeometry, pose, sizes, inputs, 2 * i);
      if (residual === undefined) return false;
      this.residuals[row] = residual.value;
      for (let k = 0; k < found.length; k++) {
        const unknown = found[k] as number;
        this.columns[row * found.length + k] = (residual.gradient[unknown] as number) * (units[unknown] as number);
      }
    }
    return true;
  }
}

function weightOf(contacts: readonly ContactGeometry[], i: number): number {
  return (contacts[i] as ContactGeometry).weight;
}

/** All unknowns that any contact touches, where the contacts determine every one of them and the whole pose among them. */
function determinedUnknowns({ residuals, firm, soft, units }: Linearisation): number[] | undefined {
  const touched = [...firm, ...soft].filter((unknown) => residuals.some(({ gradient }) => gradient[unknown] !== 0));
  const isDetermined =
    firm.every((unknown) => touched.includes(unknown)) &&
    residuals.length >= touched.length &&
    freeDirections(unweightedColumnsOf(residuals, touched, units)).length === 0;
  return isDetermined ? touched : undefined;
}
