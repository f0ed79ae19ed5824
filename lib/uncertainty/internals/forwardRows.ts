import type { Binary, Unary } from "../uncertain.ts";
import type { Step } from "./step.ts";

/**
 * The derivative row of every step, kept only as long as a later step needs it, so that a long computation works in the memory of a short one.
 */
export function forwardRows(steps: readonly Step[], outputs: readonly number[], width: number): Float64Array {
  const kept = new Float64Array(outputs.length * width);
  // Outputs by step, as chains: the last output of a step, and before each output the one of the same step, from 1 so that 0 is none.
  const lastOutput = new Int32Array(steps.length);
  const outputBefore = outputs.map((position, output) => {
    const before = lastOutput[position] as number;
    lastOutput[position] = output + 1;
    return before;
  });
  const lastUses = lastUsesOf(steps);
  const rows = new RowStore(width);
  const rowOf = new Array<Float64Array | undefined>(steps.length);
  for (let position = 0; position < steps.length; position++) {
    const step = steps[position] as Step;
    const row = rowOfStep(step, steps, rowOf, rows);
    rowOf[position] = row;
    if (row)
      for (let output = lastOutput[position] as number; output > 0; output = outputBefore[output - 1] as number)
        kept.set(row, (output - 1) * width);
    if (lastUses[position] === -1) rows.release(row);
    releaseOperands(step, position, lastUses, rowOf, rows);
  }
  return kept;
}

/** The rows that nothing after this step needs. Without lists of operands: there are as many of them as steps. */
function releaseOperands(step: Step, position: number, lastUses: Int32Array, rowOf: (Float64Array | undefined)[], rows: RowStore): void {
  switch (step.kind) {
    case "unary":
      releaseLast(step.operand, position, lastUses, rowOf, rows);
      return;
    case "binary":
      releaseLast(step.left, position, lastUses, rowOf, rows);
      releaseLast(step.right, position, lastUses, rowOf, rows);
      return;
    case "solved":
      for (const input of step.work.inputs) releaseLast(input, position, lastUses, rowOf, rows);
  }
}

function releaseLast(operand: number, position: number, lastUses: Int32Array, rowOf: (Float64Array | undefined)[], rows: RowStore): void {
  if (lastUses[operand] !== position) return;
  rows.release(rowOf[operand]);
  rowOf[operand] = undefined;
}

/** Derivatives of one step by every source; nothing where they are all zero. */
function rowOfStep(
  step: Step,
  steps: readonly Step[],
  rowOf: readonly (Float64Array | undefined)[],
  rows: RowStore,
): Float64Array | undefined {
  switch (step.kind) {
    case "constant":
      return undefined;
    case "source": {
      const row = rows.take();
      row[step.source] = 1;
      return row;
    }
    case "unary": {
      const { value: x } = steps[step.operand] as Step;
      return rows.added(undefined, unaryDerivative(step.name, x, step.value), rowOf[step.operand]);
    }
    case "binary": {
      const { value: x } = steps[step.left] as Step;
      const { value: y } = steps[step.right] as Step;
      const left = rowOf[step.left];
      const right = rowOf[step.right];
      if (left === undefined) return rows.added(undefined, byRight(step.name, x, y, step.value), right);
      const alongLeft = byLeft(step.name, x, y, step.value);
      return right === undefined
        ? rows.added(undefined, alongLeft, left)
        : rows.combined(alongLeft, left, byRight(step.name, x, y, step.value), right);
    }
    case "solved": {
      const { solution, inputs } = step.work;
      const sensitivities = solution.sensitivities();
      const first = step.index * inputs.length;
      let row: Float64Array | undefined;
      for (let i = 0; i < inputs.length; i++) row = rows.added(row, sensitivities[first + i] as number, rowOf[inputs[i] as number]);
      return row;
    }
  }
}

/** Rows of one width, used again when they are given back. */
class RowStore {
  private readonly width: number;
  private readonly free: Float64Array[] = [];

  constructor(width: number) {
    this.width = width;
  }

  /** A row of zeros. */
  take(): Float64Array {
    return this.free.pop()?.fill(0) ?? new Float64Array(this.width);
  }

  release(row: Float64Array | undefined): void {
    if (row) this.free.push(row);
  }

  /** a · x + b · y */
  combined(a: number, x: Float64Array, b: number, y: Float64Array): Float64Array | undefined {
    if (a === 0) return this.added(undefined, b, y);
    if (b === 0) return this.added(undefined, a, x);
    const row = this.free.pop() ?? new Float64Array(this.width);
    for (let i = 0; i < row.length; i++) row[i] = a * (x[i] as number) + b * (y[i] as number);
    return row;
  }

  /** `to` + factor · row, in the place of `to`; a missing row is zero. */
  added(to: Float64Array | undefined, factor: number, row: Float64Array | undefined): Float64Array | undefined {
    if (factor === 0 || row === undefined) return to;
    if (to === undefined) {
      const fresh = this.free.pop() ?? new Float64Array(this.width);
      for (let i = 0; i < fresh.length; i++) fresh[i] = factor * (row[i] as number);
      return fresh;
    }
    for (let i = 0; i < to.length; i++) to[i] = (to[i] as number) + factor * (row[i] as number);
    return to;
  }
}

/** The last step that each step is an operand of; -1 for none. */
function lastUsesOf(steps: readonly Step[]): Int32Array {
  const last = new Int32Array(steps.length).fill(-1);
  for (let position = 0; position < steps.length; position++) {
    const step = steps[position] as Step;
    switch (step.kind) {
      case "unary":
        last[step.operand] = position;
        break;
      case "binary":
        last[step.left] = position;
        last[step.right] = position;
        break;
      case "solved":
        for (const input of step.work.inputs) last[input] = position;
    }
  }
  return last;
}

function unaryDerivative(name: Unary, x: number, value: number): number {
  switch (name) {
    case "negate":
      return -1;
    case "squareRoot":
      return 0.5 / value;
    case "sine":
      return Math.cos(x);
    case "cosine":
      return -Math.sin(x);
    case "tangent":
      return 1 + value * value;
    case "arcsine":
      return 1 / Math.sqrt(1 - x * x);
    case "arccosine":
      return -1 / Math.sqrt(1 - x * x);
    case "arctangent":
      return 1 / (1 + x * x);
    case "absolute":
      return Math.sign(x);
  }
}

function byLeft(name: Binary, x: number, y: number, value: number): number {
  switch (name) {
    case "add":
    case "subtract":
      return 1;
    case "multiply":
      return y;
    case "divide":
      return 1 / y;
    case "arctangent2":
      return y / (x * x + y * y);
    case "hypotenuse":
      return x / value;
    case "power":
      return y * x ** (y - 1);
    case "minimum":
      return x <= y ? 1 : 0;
    case "maximum":
      return x >= y ? 1 : 0;
  }
}

function byRight(name: Binary, x: number, y: number, value: number): number {
  switch (name) {
    case "add":
      return 1;
    case "subtract":
      return -1;
    case "multiply":
      return x;
    case "divide":
      return -value / y;
    case "arctangent2":
      return -x / (x * x + y * y);
    case "hypotenuse":
      return y / value;
    case "power":
      return x > 0 ? value * Math.log(x) : 0;
    case "minimum":
      return x <= y ? 0 : 1;
    case "maximum":
      return x >= y ? 0 : 1;
  }
}
