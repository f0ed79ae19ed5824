import { type BlockKernels, plainKernels } from "../kernels/blockKernels.ts";
import { type Binary, binaryValue, type Solver, type Unary, unaryValue } from "../uncertain.ts";
import type { BlockLoops } from "./blockLoops.ts";
import type { BlockPass } from "./blockPass.ts";
import type { BlockPlan } from "./blockPlan.ts";
import type { SolvedWork } from "./step.ts";

/**
 * Evaluates the steps of a computation for a block of trials: one column per step, kept only as long as a later step needs it, so that a long
 * computation works in the memory of a short one. Nothing is allocated from one block to the next.
 */
export class BlockEvaluator {
  readonly count: number;
  private readonly plan: BlockPlan;
  private readonly loops: BlockLoops;
  /** Column of every step; a source's is set anew for every block. */
  private readonly columns: Float64Array[];
  private readonly solved = new Map<SolvedWork, SolvedColumns>();

  constructor(plan: BlockPlan, kernels: BlockKernels = plainKernels) {
    this.plan = plan;
    this.count = plan.count;
    this.loops = kernels.loops;
    this.columns = plan.columnsIn(kernels.numbers(plan.room));
    for (const pass of plan.passes)
      if (pass.kind === "solved" && !this.solved.has(pass.work)) this.solved.set(pass.work, new SolvedColumns(pass.work, plan.count));
  }

  /** @param draws one column per source; the results stand in columns of this evaluator until the next block */
  evaluate(draws: readonly Float64Array[]): Float64Array[] {
    const { columns, loops } = this;
    const { passes, width } = this.plan;
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
          applyUnary(loops, step.name, column, columns[step.operand] as Float64Array, width);
          break;
        case "binary":
          applyBinary(loops, step.name, column, columns[step.left] as Float64Array, columns[step.right] as Float64Array, width);
          break;
        case "number":
          loops.number[step.loop](column, columns[step.operand] as Float64Array, step.number, width);
          break;
        case "products": {
          const [a, b, c, d] = step.operands;
          loops.products[step.loop](
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
          loops[step.outer][step.inner](column, columns[a] as Float64Array, columns[b] as Float64Array, columns[c] as Float64Array, width);
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
    const results = this.plan.outputSteps.map((step) => columns[step] as Float64Array);
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

function applyUnary({ unary }: BlockLoops, name: Unary, to: Float64Array, x: Float64Array, count: number): void {
  switch (name) {
    case "negate":
    case "squareRoot":
    case "sine":
    case "cosine":
      unary[name](to, x, count);
      return;
    default:
      for (let i = 0; i < count; i++) to[i] = unaryValue(name, x[i] as number);
  }
}

function applyBinary({ binary }: BlockLoops, name: Binary, to: Float64Array, x: Float64Array, y: Float64Array, count: number): void {
  switch (name) {
    case "add":
    case "subtract":
    case "multiply":
    case "divide":
    case "hypotenuse":
    case "arctangent2":
      binary[name](to, x, y, count);
      return;
    default:
      for (let i = 0; i < count; i++) to[i] = binaryValue(name, x[i] as number, y[i] as number);
  }
}
