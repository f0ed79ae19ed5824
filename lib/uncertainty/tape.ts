import type { Source } from "./source.ts";
import { type Binary, binaryValue, type Solution, type Unary, type Uncertain, unaryValue } from "./uncertain.ts";

/**
 * The computation behind some results, laid out flat: every step after the
 * steps that it needs, every shared step once. Two readings of it give
 * everything: forward rows (the derivative of every step by every source, in one
 * array, no garbage) and trials (every step evaluated for a block of draws).
 */
export class Tape {
  /** The sources that the results depend on, in the order in which the results first meet them. */
  readonly sources: readonly Source[];
  readonly outputs: readonly Uncertain[];
  private readonly steps: readonly Step[];
  private readonly outputSteps: readonly number[];
  private rows: Float64Array | undefined;

  /** @throws Error when two different sources carry the same id */
  constructor(outputs: readonly Uncertain[]) {
    this.outputs = outputs;
    const { steps, sources, index } = layOut(outputs);
    this.steps = steps;
    this.sources = sources;
    this.outputSteps = outputs.map((output) => index.get(output) as number);
  }

  /**
   * Derivatives of one result by every source at the best estimates, in the
   * order of `sources`. A view into the tape: do not write to it.
   */
  sensitivities(output: number): Float64Array {
    this.rows ??= forwardRows(this.steps, this.sources.length);
    const width = this.sources.length;
    const start = (this.outputSteps[output] as number) * width;
    return this.rows.subarray(start, start + width);
  }

  /**
   * Evaluates every result for a block of trials.
   *
   * @param draws one column per source: its values (estimate included), trial by trial
   * @param count how many trials the columns hold
   * @returns one column per result; NaN in a trial in which a solved step found no solution
   */
  evaluate(draws: readonly Float64Array[], count: number): Float64Array[] {
    const columns: Float64Array[] = [];
    const solved = new Map<SolvedWork, Float64Array[]>();
    for (const step of this.steps) columns.push(evaluateStep(step, columns, solved, draws, count));
    return this.outputSteps.map((step) => columns[step] as Float64Array);
  }
}

type Step =
  | { readonly kind: "constant"; readonly value: number }
  | { readonly kind: "source"; readonly value: number; readonly source: number }
  | { readonly kind: "unary"; readonly value: number; readonly name: Unary; readonly operand: number }
  | { readonly kind: "binary"; readonly value: number; readonly name: Binary; readonly left: number; readonly right: number }
  | { readonly kind: "solved"; readonly value: number; readonly work: SolvedWork; readonly index: number };

/** What the unknowns of one solution share: the steps of its inputs. */
interface SolvedWork {
  readonly solution: Solution;
  readonly inputs: readonly number[];
}

function layOut(outputs: readonly Uncertain[]) {
  const steps: Step[] = [];
  const index = new Map<Uncertain, number>();
  const sources: Source[] = [];
  const sourceIndex = new Map<string, number>();
  const works = new Map<Solution, SolvedWork>();

  const numberOf = (source: Source): number => {
    const known = sourceIndex.get(source.id);
    if (known === undefined) {
      sourceIndex.set(source.id, sources.length);
      sources.push(source);
      return sources.length - 1;
    }
    if (sources[known] !== source) throw new Error(`Tape: two different sources carry the id "${source.id}"`);
    return known;
  };
  const at = (value: Uncertain): number => index.get(value) as number;

  const toStep = (node: Uncertain): Step => {
    const { operation, value } = node;
    switch (operation.kind) {
      case "constant":
        return { kind: "constant", value };
      case "source":
        return { kind: "source", value, source: numberOf(operation.source) };
      case "unary":
        return { kind: "unary", value, name: operation.name, operand: at(operation.operand) };
      case "binary":
        return { kind: "binary", value, name: operation.name, left: at(operation.left), right: at(operation.right) };
      case "solved": {
        const { solution } = operation;
        const work = works.get(solution) ?? { solution, inputs: solution.inputs.map(at) };
        works.set(solution, work);
        return { kind: "solved", value, work, index: operation.index };
      }
    }
  };

  // Depth first with a stack of its own: a sum of many thousand terms must not overflow the call stack.
  const stack: Uncertain[] = [...outputs].reverse();
  while (stack.length > 0) {
    const node = stack[stack.length - 1] as Uncertain;
    if (index.has(node)) {
      stack.pop();
      continue;
    }
    const missing = operandsOf(node).filter((operand) => !index.has(operand));
    if (missing.length > 0) {
      for (let i = missing.length - 1; i >= 0; i--) stack.push(missing[i] as Uncertain);
      continue;
    }
    stack.pop();
    index.set(node, steps.length);
    steps.push(toStep(node));
  }
  return { steps, sources, index };
}

function operandsOf({ operation }: Uncertain): readonly Uncertain[] {
  switch (operation.kind) {
    case "unary":
      return [operation.operand];
    case "binary":
      return [operation.left, operation.right];
    case "solved":
      return operation.solution.inputs;
    default:
      return [];
  }
}

function forwardRows(steps: readonly Step[], width: number): Float64Array {
  const rows = new Float64Array(steps.length * width);
  steps.forEach((step, position) => {
    const row = position * width;
    switch (step.kind) {
      case "constant":
        return;
      case "source":
        rows[row + step.source] = 1;
        return;
      case "unary": {
        const x = (steps[step.operand] as Step).value;
        addScaled(rows, row, step.operand * width, unaryDerivative(step.name, x, step.value), width);
        return;
      }
      case "binary": {
        const x = (steps[step.left] as Step).value;
        const y = (steps[step.right] as Step).value;
        const [byLeft, byRight] = binaryDerivatives(step.name, x, y, step.value);
        addScaled(rows, row, step.left * width, byLeft, width);
        addScaled(rows, row, step.right * width, byRight, width);
        return;
      }
      case "solved": {
        const { work } = step;
        const sensitivities = work.solution.sensitivities();
        const first = step.index * work.inputs.length;
        work.inputs.forEach((input, i) => {
          addScaled(rows, row, input * width, sensitivities[first + i] as number, width);
        });
      }
    }
  });
  return rows;
}

function addScaled(rows: Float64Array, to: number, from: number, factor: number, width: number): void {
  if (factor === 0) return;
  for (let i = 0; i < width; i++) rows[to + i] = (rows[to + i] as number) + factor * (rows[from + i] as number);
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

function binaryDerivatives(name: Binary, x: number, y: number, value: number): readonly [number, number] {
  switch (name) {
    case "add":
      return [1, 1];
    case "subtract":
      return [1, -1];
    case "multiply":
      return [y, x];
    case "divide":
      return [1 / y, -value / y];
    case "arctangent2": {
      const square = x * x + y * y;
      return [y / square, -x / square];
    }
    case "hypotenuse":
      return [x / value, y / value];
    case "power":
      return [y * x ** (y - 1), x > 0 ? value * Math.log(x) : 0];
    case "minimum":
      return x <= y ? [1, 0] : [0, 1];
    case "maximum":
      return x >= y ? [1, 0] : [0, 1];
  }
}

function evaluateStep(
  step: Step,
  columns: readonly Float64Array[],
  solved: Map<SolvedWork, Float64Array[]>,
  draws: readonly Float64Array[],
  count: number,
): Float64Array {
  switch (step.kind) {
    case "constant":
      return new Float64Array(count).fill(step.value);
    case "source":
      return draws[step.source] as Float64Array;
    case "unary":
      return (columns[step.operand] as Float64Array).map((x) => unaryValue(step.name, x));
    case "binary": {
      const right = columns[step.right] as Float64Array;
      return (columns[step.left] as Float64Array).map((x, trial) => binaryValue(step.name, x, right[trial] as number));
    }
    case "solved": {
      const unknowns = solved.get(step.work) ?? solveTrials(step.work, columns, count);
      solved.set(step.work, unknowns);
      return unknowns[step.index] as Float64Array;
    }
  }
}

function solveTrials({ solution, inputs }: SolvedWork, columns: readonly Float64Array[], count: number): Float64Array[] {
  const { solver } = solution;
  const solved = Array.from({ length: solver.outputCount }, () => new Float64Array(count));
  const values = new Float64Array(inputs.length);
  const unknowns = new Float64Array(solver.outputCount);
  for (let trial = 0; trial < count; trial++) {
    inputs.forEach((input, i) => {
      values[i] = (columns[input] as Float64Array)[trial] as number;
    });
    const found = solver.solve(values, unknowns);
    solved.forEach((column, k) => {
      column[trial] = found ? (unknowns[k] as number) : Number.NaN;
    });
  }
  return solved;
}
