import { BlockEvaluator } from "./internals/blockEvaluator.ts";
import { BlockPlan } from "./internals/blockPlan.ts";
import { curvedSources } from "./internals/curvedSources.ts";
import { displacedSteps } from "./internals/displacedSteps.ts";
import { forwardRows } from "./internals/forwardRows.ts";
import { linearSteps } from "./internals/linearSteps.ts";
import type { SolvedWork, Step } from "./internals/step.ts";
import type { Source } from "./source.ts";
import type { Solution, Uncertain } from "./uncertain.ts";

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
  /** Derivative rows of the results, one after the other. */
  private rows: Float64Array | undefined;
  private evaluator: BlockEvaluator | undefined;
  private linear: Uint8Array | undefined;

  /** @throws Error when two different sources carry the same id */
  constructor(outputs: readonly Uncertain[]) {
    this.outputs = outputs;
    const { steps, sources } = layOut(outputs);
    this.steps = steps;
    this.sources = sources;
    this.outputSteps = outputs.map(({ step }) => step);
  }

  /**
   * Derivatives of one result by every source at the best estimates, in the
   * order of `sources`. A view into the tape: do not write to it.
   */
  sensitivities(output: number): Float64Array {
    this.rows ??= this.allSensitivities();
    const width = this.sources.length;
    return this.rows.subarray(output * width, (output + 1) * width);
  }

  /** The same of all results, one row after the other: worked out anew, the caller's own. */
  allSensitivities(): Float64Array {
    return forwardRows(this.steps, this.outputSteps, this.sources.length);
  }

  /** Whether a result is a sum of sources with fixed factors, so that its first-order form is all of it. */
  isLinear(output: number): boolean {
    this.linear ??= linearSteps(this.steps);
    return this.linear[this.outputSteps[output] as number] === 1;
  }

  /**
   * The derivatives of all results, one row of them after the other, where the sources stand at other values than their best estimates. A row
   * holds NaN where its result depends on a step that has no value there.
   */
  sensitivitiesAt(values: Float64Array): Float64Array {
    return forwardRows(displacedSteps(this.steps, values), this.outputSteps, this.sources.length);
  }

  /** By source: whether it enters a step that is not linear, so that second derivatives of the results may be other than 0. */
  curved(): readonly boolean[] {
    return curvedSources(this.steps, this.sources.length);
  }

  /**
   * Evaluates every result for a block of trials.
   *
   * @param draws one column per source: its values (estimate included), trial by trial
   * @param count how many trials the columns hold
   * @returns one column per result, which the next call for as many trials writes over; NaN in a trial in which a solved step found no solution
   */
  evaluate(draws: readonly Float64Array[], count: number): Float64Array[] {
    if (this.evaluator?.count !== count) this.evaluator = new BlockEvaluator(this.planFor(count));
    return this.evaluator.evaluate(draws);
  }

  /** How every result is evaluated for so many trials at a time. */
  planFor(count: number): BlockPlan {
    return new BlockPlan(this.steps, this.outputSteps, count);
  }
}

/** How many layouts there have been: what tells a value that is in the one at hand from one that was in an earlier one. */
let layouts = 0;

function layOut(outputs: readonly Uncertain[]) {
  layouts += 1;
  const layout = layouts;
  const steps: Step[] = [];
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
  const toStep = (node: Uncertain): Step => {
    const { operation, value } = node;
    switch (operation.kind) {
      case "constant":
        return { kind: "constant", value };
      case "source":
        return { kind: "source", value, source: numberOf(operation.source) };
      case "unary":
        return { kind: "unary", value, name: operation.name, operand: operation.operand.step };
      case "binary":
        return { kind: "binary", value, name: operation.name, left: operation.left.step, right: operation.right.step };
      case "solved": {
        const { solution } = operation;
        const work = works.get(solution) ?? { solution, inputs: solution.inputs.map(({ step }) => step) };
        works.set(solution, work);
        return { kind: "solved", value, work, index: operation.index };
      }
    }
  };

  // Depth first with a stack of its own: a sum of many thousand terms must not overflow the call stack.
  const stack: Uncertain[] = [...outputs].reverse();
  while (stack.length > 0) {
    const node = stack[stack.length - 1] as Uncertain;
    if (node.layout === layout) {
      stack.pop();
      continue;
    }
    const height = stack.length;
    pushOperands(node, layout, stack);
    if (stack.length > height) continue;
    stack.pop();
    node.layout = layout;
    node.step = steps.length;
    steps.push(toStep(node));
  }
  return { steps, sources };
}

/** Those that are not in the layout yet; the first comes to lie on top. */
function pushOperands({ operation }: Uncertain, layout: number, stack: Uncertain[]): void {
  switch (operation.kind) {
    case "unary":
      if (operation.operand.layout !== layout) stack.push(operation.operand);
      return;
    case "binary":
      if (operation.right.layout !== layout) stack.push(operation.right);
      if (operation.left.layout !== layout) stack.push(operation.left);
      return;
    case "solved": {
      const { inputs } = operation.solution;
      for (let i = inputs.length - 1; i >= 0; i--) if ((inputs[i] as Uncertain).layout !== layout) stack.push(inputs[i] as Uncertain);
    }
  }
}
