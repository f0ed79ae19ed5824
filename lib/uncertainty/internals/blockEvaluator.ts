import { type Binary, binaryValue, type Solver, type Unary, unaryValue } from "../uncertain.ts";
import { binaryLoops, trialsPerRound, unaryLoops } from "./blockLoops.ts";
import { type BlockPass, operandsOfPass, passesOf } from "./blockPass.ts";
import type { SolvedWork, Step } from "./step.ts";

/** Columns whose distance is a power of two would share the same few lines of the cache. */
const padding = 16;

/**
 * Evaluates the steps of a computation for a block of trials: one column per step, kept only as long as a later step needs it, so that a long
 * computation works in the memory of a short one. Nothing is allocated from one block to the next, and no code is made at run time.
 */
export class BlockEvaluator {
  readonly count: number;
  /** Length of the columns; what lies beyond `count` is never looked at. */
  private readonly width: number;
  private readonly passes: readonly BlockPass[];
  private readonly outputSteps: readonly number[];
  /** Column of every step; a source's is set anew for every block. */
  private readonly columns: Float64Array[];
  private readonly solved = new Map<SolvedWork, SolvedColumns>();

  constructor(steps: readonly Step[], outputSteps: readonly number[], count: number) {
    this.count = count;
    this.width = Math.ceil(count / trialsPerRound) * trialsPerRound;
    this.passes = passesOf(steps, outputSteps);
    this.outputSteps = outputSteps;
    this.columns = assignColumns(this.passes, outputSteps, this.width, this.width > count);
    for (const step of steps)
      if (step.kind === "solved" && !this.solved.has(step.work)) this.solved.set(step.work, new SolvedColumns(step.work, count));
  }

  /** @param draws one column per source; the results stand in columns of this evaluator until the next block */
  evaluate(draws: readonly Float64Array[]): Float64Array[] {
    const { passes, columns, width } = this;
    for (let position = 0; position < passes.length; position++) {
      const step = passes[position] as BlockPass;
      const column = columns[position] as Float64Array;
      switch (step.kind) {
        case "constant":
        case "absorbed":
          break;
        case "source":
          if (width === this.count) columns[position] = draws[step.source] as Float64Array;
          else column.set(draws[step.source] as Float64Array);
          break;
        case "unary":
          applyUnary(step.name, column, columns[step.operand] as Float64Array, width);
          break;
        case "binary":
          applyBinary(step.name, column, columns[step.left] as Float64Array, columns[step.right] as Float64Array, width);
          break;
        case "number":
          step.apply(column, columns[step.operand] as Float64Array, step.number, width);
          break;
        case "products": {
          const [a, b, c, d] = step.operands;
          step.apply(
            column,
            columns[a] as Float64Array,
            columns[b] as Float64Array,
            columns[c] as Float64Array,
            columns[d] as Float64Array,
            width,
          );
          break;
        }
        case "pair": {
          const [a, b, c] = step.operands;
          step.apply(column, columns[a] as Float64Array, columns[b] as Float64Array, columns[c] as Float64Array, width);
          break;
        }
        case "solved": {
          const solved = this.solved.get(step.work) as SolvedColumns;
          // All unknowns of a solution are found when the first of them is met.
          if (!solved.isFresh) solved.solve(columns);
          column.set(solved.unknown(step.index));
          break;
        }
      }
    }
    for (const solved of this.solved.values()) solved.isFresh = false;
    const results = this.outputSteps.map((step) => columns[step] as Float64Array);
    return width === this.count ? results : results.map((column) => column.subarray(0, this.count));
  }
}

/** The unknowns of one solution, trial by trial. */
class SolvedColumns {
  isFresh = false;
  private readonly solver: Solver;
  private readonly inputs: readonly number[];
  private readonly unknowns: Float64Array[];
  private readonly values: Float64Array;
  private readonly found: Float64Array;

  constructor({ solution: { solver }, inputs }: SolvedWork, count: number) {
    this.solver = solver;
    this.inputs = inputs;
    this.unknowns = Array.from({ length: solver.outputCount }, () => new Float64Array(count));
    this.values = new Float64Array(inputs.length);
    this.found = new Float64Array(solver.outputCount);
  }

  unknown(index: number): Float64Array {
    return this.unknowns[index] as Float64Array;
  }

  solve(columns: readonly Float64Array[]): void {
    const { solver, inputs, unknowns, values, found } = this;
    const count = (unknowns[0] as Float64Array).length;
    for (let trial = 0; trial < count; trial++) {
      for (let i = 0; i < inputs.length; i++) values[i] = (columns[inputs[i] as number] as Float64Array)[trial] as number;
      const isSolved = solver.solve(values, found);
      for (let k = 0; k < unknowns.length; k++) (unknowns[k] as Float64Array)[trial] = isSolved ? (found[k] as number) : Number.NaN;
    }
    this.isFresh = true;
  }
}

/**
 * A column for every pass but what is absorbed, used again once no later pass and no result needs it; the sources bring their own, unless those are
 * too short.
 */
function assignColumns(passes: readonly BlockPass[], outputSteps: readonly number[], width: number, withSources: boolean): Float64Array[] {
  const last = new Int32Array(passes.length);
  passes.forEach((pass, position) => {
    for (const operand of operandsOfPass(pass)) last[operand] = position;
  });
  for (const output of outputSteps) last[output] = passes.length;
  const free: number[] = [];
  const numbers = new Int32Array(passes.length);
  let made = 0;
  const take = () => free.pop() ?? made++;
  passes.forEach((pass, position) => {
    const { kind } = pass;
    // Constants are written once, for all blocks.
    numbers[position] = kind === "constant" ? made++ : (kind === "source" && !withSources) || kind === "absorbed" ? -1 : take();
    for (const operand of new Set(operandsOfPass(pass)))
      if (last[operand] === position && passes[operand]?.kind !== "constant" && (numbers[operand] as number) >= 0)
        free.push(numbers[operand] as number);
    if (last[position] === 0 && kind !== "constant" && (numbers[position] as number) >= 0) free.push(numbers[position] as number);
  });
  const stride = width + padding;
  const room = new Float64Array(made * stride);
  return passes.map((pass, position) => {
    const number = numbers[position] as number;
    const column = number < 0 ? emptyColumn : room.subarray(number * stride, number * stride + width);
    return pass.kind === "constant" ? column.fill(pass.value) : column;
  });
}

const emptyColumn = new Float64Array(0);

function applyUnary(name: Unary, to: Float64Array, x: Float64Array, count: number): void {
  switch (name) {
    case "negate":
    case "squareRoot":
    case "sine":
    case "cosine":
      unaryLoops[name](to, x, count);
      return;
    default:
      for (let i = 0; i < count; i++) to[i] = unaryValue(name, x[i] as number);
  }
}

function applyBinary(name: Binary, to: Float64Array, x: Float64Array, y: Float64Array, count: number): void {
  switch (name) {
    case "add":
    case "subtract":
    case "multiply":
    case "divide":
    case "hypotenuse":
    case "arctangent2":
      binaryLoops[name](to, x, y, count);
      return;
    default:
      for (let i = 0; i < count; i++) to[i] = binaryValue(name, x[i] as number, y[i] as number);
  }
}
