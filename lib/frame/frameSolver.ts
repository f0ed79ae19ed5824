import { entryOf, type Matrix } from "../base/matrix.ts";
import type { Solver } from "../uncertainty/uncertain.ts";
import { type ContactGeometry, type ContactResidual, contactBend, contactResidual, type Pose, poseUnknowns } from "./contactResidual.ts";
import { frameSensitivities } from "./frameSensitivities.ts";
import { type Linearisation, lineariseContacts } from "./linearisation.ts";
import { startingPose } from "./startingPose.ts";

/**
 * What the solver may do with a size (a width, a diameter, a drawing dimension):
 * `free`: find it from the contacts; `held`: take it as given; `preferred`: find
 * it where the contacts determine it, and otherwise stay as near to the given
 * value as they allow, in units of `scale`.
 */
export interface SizeRule {
  readonly mode: "free" | "held" | "preferred";
  /** How far the size may be from its given value, mm, above 0; weighs preferred sizes against each other. */
  readonly scale: number;
}

const maximumIterations = 100;
/** Rounding of a coordinate enters a residual through about this many operations. */
const roundings = 16;
/** Steps below this, in mm, that no longer shrink are rounding; how well the contacts fit no longer tells whether they are right. */
const nearlyThere = 1e-6;
const smallestFraction = 1e-6;

/**
 * Finds the rigid motion (X, Y, Z, and a rotation about Z when asked) and the
 * sizes that fulfil the contacts: exactly when they are just enough, in the
 * least-squares sense when they are more. Gauss-Newton steps on exact
 * derivatives; preferred sizes by the smallest weighted departure among all
 * least-squares solutions. Unknowns that no contact limits stay where they start.
 *
 * Inputs, in order: advance and reach of every contact, then the given value of
 * every size (its deviation from nominal), mm. Outputs: X, Y, Z in mm, rotation
 * in radians, sizes in mm.
 */
export class FrameSolver implements Solver {
  readonly outputCount: number;
  readonly contacts: readonly ContactGeometry[];
  readonly sizes: readonly SizeRule[];
  readonly rotates: boolean;
  private readonly near: ArrayLike<number> | undefined;
  private readonly units: Float64Array;
  /** What rounding does to a residual at the size of the coordinates, mm. */
  private readonly rounding: number;

  /**
   * @param near unknowns to start from, where they are about known; from the contacts themselves otherwise
   * @throws RangeError if the scale of a size is not above 0
   */
  constructor(contacts: readonly ContactGeometry[], sizes: readonly SizeRule[], rotates: boolean, near?: ArrayLike<number>) {
    for (const { scale } of sizes) if (!(scale > 0)) throw new RangeError(`scale: expected > 0 mm, got ${scale}`);
    this.contacts = contacts;
    this.sizes = sizes;
    this.rotates = rotates;
    this.near = near;
    this.outputCount = poseUnknowns + sizes.length;
    this.rounding = roundings * Number.EPSILON * (1 + farthest(contacts));
    this.units = Float64Array.from([1, 1, 1, 1 / spread(contacts), ...sizes.map(({ mode, scale }) => (mode === "preferred" ? scale : 1))]);
  }

  solve(inputs: Float64Array, outputs: Float64Array): boolean {
    return this.settle(inputs, outputs) !== undefined;
  }

  /** As `solve`, and the equations about the solution; undefined when there is none. */
  settle(inputs: Float64Array, outputs: Float64Array): Linearisation | undefined {
    if (this.near !== undefined) {
      outputs.set(this.near);
      // Held sizes are what they are given, wherever the start was found.
      this.sizes.forEach(({ mode }, s) => {
        if (mode === "held") outputs[poseUnknowns + s] = inputs[2 * this.contacts.length + s] as number;
      });
      const linear = this.settleFrom(inputs, outputs);
      if (linear !== undefined) return linear;
    }
    const start = startingPose(this.contacts, inputs, this.rotates);
    outputs.set([...start.origin, start.rotation, ...inputs.subarray(2 * this.contacts.length)]);
    return this.settleFrom(inputs, outputs);
  }

  private settleFrom(inputs: Float64Array, outputs: Float64Array): Linearisation | undefined {
    const given = inputs.subarray(2 * this.contacts.length);
    let before = Number.POSITIVE_INFINITY;
    for (let iteration = 0; iteration < maximumIterations; iteration++) {
      const linear = this.linearise(inputs, outputs);
      if (linear === undefined) return undefined;
      const step = this.step(linear, outputs, given);
      const size = step.reduce((largest, change, i) => Math.max(largest, Math.abs(change) / (this.units[i] as number)), 0);
      if (!Number.isFinite(size)) return undefined;
      if (size <= this.rounding || (size < nearlyThere && size >= before / 2)) return linear;
      if (size < nearlyThere) for (let i = 0; i < step.length; i++) outputs[i] = (outputs[i] as number) + (step[i] as number);
      else if (!this.take(step, inputs, outputs, cost(linear.residuals))) return undefined;
      before = size;
    }
    return undefined;
  }

  sensitivities(inputs: Float64Array, outputs: Float64Array): Float64Array {
    const linear = this.linearise(inputs, outputs);
    if (linear === undefined) throw new Error("FrameSolver: expected a solution, got a tool on the axis of a round wall");
    return this.sensitivitiesAbout(linear, inputs, outputs);
  }

  /** The same where the equations about the solution are at hand. */
  sensitivitiesAbout(linear: Linearisation, inputs: Float64Array, outputs: Float64Array): Float64Array {
    const { pose, sizes } = this.unknownsAt(outputs);
    // Second derivatives matter only where something is left of an equation.
    const bends = this.contacts.map((contact, i) =>
      Math.abs((linear.residuals[i] as ContactResidual).value) > this.rounding * contact.weight
        ? contactBend(contact, pose, sizes, inputs[2 * i] as number)
        : undefined,
    );
    return frameSensitivities(linear, bends, this.sizes);
  }

  /** The equations about the given unknowns; undefined when a tool stands on the axis of a round wall. */
  linearise(inputs: Float64Array, outputs: ArrayLike<number>): Linearisation | undefined {
    const residuals = this.residualsAt(inputs, outputs);
    if (residuals === undefined) return undefined;
    const firm = [0, 1, 2, ...(this.rotates ? [3] : []), ...this.unknownsOf("free")];
    return lineariseContacts(residuals, firm, this.unknownsOf("preferred"), this.units);
  }

  private residualsAt(inputs: Float64Array, outputs: ArrayLike<number>): readonly ContactResidual[] | undefined {
    const { pose, sizes } = this.unknownsAt(outputs);
    const residuals: ContactResidual[] = [];
    for (let i = 0; i < this.contacts.length; i++) {
      const residual = contactResidual(this.contacts[i] as ContactGeometry, pose, sizes, inputs, 2 * i);
      if (residual === undefined) return undefined;
      residuals.push(residual);
    }
    return residuals;
  }

  private unknownsAt(outputs: ArrayLike<number>): { pose: Pose; sizes: readonly number[] } {
    return {
      pose: { origin: [outputs[0] as number, outputs[1] as number, outputs[2] as number], rotation: outputs[3] as number },
      sizes: this.sizes.map((_, s) => outputs[poseUnknowns + s] as number),
    };
  }

  private unknownsOf(mode: SizeRule["mode"]): number[] {
    return this.sizes.flatMap((size, s) => (size.mode === mode ? [poseUnknowns + s] : []));
  }

  private step(
    { residuals, firm, soft, softColumns, firmResponse, softResponse }: Linearisation,
    at: Float64Array,
    given: Float64Array,
  ): Float64Array {
    const step = new Float64Array(this.outputCount);
    // From where they are, the soft sizes first wish to return to their given values.
    const wish = soft.map(
      (unknown) => ((given[unknown - poseUnknowns] as number) - (at[unknown] as number)) / (this.units[unknown] as number),
    );
    const missing = residuals.map(({ value }, i) => -value - rowTimes(softColumns, i, wish));
    const moved = soft.map((_, k) => (wish[k] as number) + rowTimes(softResponse, k, missing));
    const left = residuals.map(({ value }, i) => -value - rowTimes(softColumns, i, moved));
    soft.forEach((unknown, k) => {
      step[unknown] = (moved[k] as number) * (this.units[unknown] as number);
    });
    firm.forEach((unknown, k) => {
      step[unknown] = rowTimes(firmResponse, k, left) * (this.units[unknown] as number);
    });
    return step;
  }

  /** Takes the step, or the largest half, quarter, ... of it that does not make the fit worse; false when none does. */
  private take(step: Float64Array, inputs: Float64Array, outputs: Float64Array, before: number): boolean {
    const from = outputs.slice();
    for (let fraction = 1; fraction > smallestFraction; fraction /= 2) {
      for (let i = 0; i < step.length; i++) outputs[i] = (from[i] as number) + fraction * (step[i] as number);
      const after = this.residualsAt(inputs, outputs);
      if (after !== undefined && cost(after) <= before + this.contacts.length * this.rounding ** 2) return true;
    }
    return false;
  }
}

function rowTimes(a: Matrix, row: number, vector: ArrayLike<number>): number {
  let total = 0;
  for (let i = 0; i < a.columns; i++) total += entryOf(a, row, i) * (vector[i] as number);
  return total;
}

function cost(residuals: readonly ContactResidual[]): number {
  return residuals.reduce((total, { value }) => total + value * value, 0);
}

/** Largest coordinate of any contact, mm. */
function farthest(contacts: readonly ContactGeometry[]): number {
  let most = 0;
  for (const { centre } of contacts) most = Math.max(most, Math.abs(centre[0]), Math.abs(centre[1]), Math.abs(centre[2]));
  return most;
}

/** Half the extent of the contacts in the plane, mm; 1 when they stand at one place. */
function spread(contacts: readonly ContactGeometry[]): number {
  const half = Math.max(extent(contacts, 0), extent(contacts, 1)) / 2;
  return half > 0 ? half : 1;
}

function extent(contacts: readonly ContactGeometry[], axis: 0 | 1): number {
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (const { centre } of contacts) {
    least = Math.min(least, centre[axis]);
    most = Math.max(most, centre[axis]);
  }
  return most - least;
}
