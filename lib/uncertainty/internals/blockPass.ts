import type { Binary } from "../uncertain.ts";
import {
  minusOther,
  type NumberLoop,
  numberLoops,
  otherMinus,
  type PairLoop,
  type ProductsLoop,
  plusOther,
  productLoops,
} from "./blockLoops.ts";
import { operandsOfStep, type Step } from "./step.ts";

/** What is done with the columns of a block in one go: a step, two or three steps together, or nothing where a later pass does it. */
export type BlockPass = Step | NumberPass | PairPass | ProductsPass | { readonly kind: "absorbed" };

/** A step of which one operand is the same in all trials. */
interface NumberPass {
  readonly kind: "number";
  readonly apply: NumberLoop;
  readonly operand: number;
  readonly number: number;
}

/** A sum or difference of which one side is a sum, difference or product that nothing else needs: it gets no column of its own. */
interface PairPass {
  readonly kind: "pair";
  readonly apply: PairLoop;
  /** Positions: the two operands of the inner step, and the other one of the outer step. */
  readonly operands: readonly [a: number, b: number, c: number];
}

/** A sum or difference of two products that nothing else needs. */
interface ProductsPass {
  readonly kind: "products";
  readonly apply: ProductsLoop;
  readonly operands: readonly [a: number, b: number, c: number, d: number];
}

/** One pass for every step. The same operations in the same order as step by step, so that results are the same to the last bit. */
export function passesOf(steps: readonly Step[], outputSteps: readonly number[]): BlockPass[] {
  const uses = new Int32Array(steps.length);
  for (const step of steps) for (const operand of operandsOfStep(step)) uses[operand] = (uses[operand] as number) + 1;
  // Results are needed from outside.
  for (const output of outputSteps) uses[output] = (uses[output] as number) + 1;
  const passes: BlockPass[] = [...steps];

  /** A step that is still a pass by itself, and that nothing but the outer one needs. */
  const absorbable = (position: number): BinaryStep | undefined => {
    const pass = passes[position] as BlockPass;
    return pass.kind === "binary" && uses[position] === 1 ? pass : undefined;
  };
  const absorb = (positions: readonly number[]) => {
    for (const position of positions) passes[position] = { kind: "absorbed" };
  };
  steps.forEach((step, position) => {
    if (step.kind !== "binary") return;
    const [left, right] = [absorbable(step.left), absorbable(step.right)];
    const ofProducts = left?.name === "multiply" && right?.name === "multiply" ? pick(productLoops, step.name) : undefined;
    const leftLoop = left && pick(innerFirst[step.name], left.name);
    const rightLoop = right && pick(innerLast[step.name], right.name);
    if (left && right && ofProducts) {
      passes[position] = { kind: "products", apply: ofProducts, operands: [left.left, left.right, right.left, right.right] };
      absorb([step.left, step.right]);
    } else if (left && leftLoop) {
      passes[position] = { kind: "pair", apply: leftLoop, operands: [left.left, left.right, step.right] };
      absorb([step.left]);
    } else if (right && rightLoop) {
      passes[position] = { kind: "pair", apply: rightLoop, operands: [right.left, right.right, step.left] };
      absorb([step.right]);
    }
  });
  return passes.map((pass) => (pass.kind === "binary" ? (withNumber(pass, steps) ?? pass) : pass));
}

/** Positions of the steps that a pass reads. */
export function operandsOfPass(pass: BlockPass): readonly number[] {
  switch (pass.kind) {
    case "number":
      return [pass.operand];
    case "pair":
    case "products":
      return pass.operands;
    case "absorbed":
      return [];
    default:
      return operandsOfStep(pass);
  }
}

type BinaryStep = Extract<Step, { readonly kind: "binary" }>;
type PairLoops = { readonly [Inner in Binary]?: PairLoop };

/** By outer, then by inner operation. */
const innerFirst: { readonly [Outer in Binary]?: PairLoops } = { add: plusOther, subtract: minusOther };
/** A sum is the same either way round. */
const innerLast: { readonly [Outer in Binary]?: PairLoops } = { add: plusOther, subtract: otherMinus };

function pick<T>(loops: { readonly [Name in Binary]?: T } | undefined, name: Binary): T | undefined {
  return loops?.[name];
}

function withNumber({ name, left, right }: BinaryStep, steps: readonly Step[]): NumberPass | undefined {
  const [x, y] = [steps[left] as Step, steps[right] as Step];
  const pass = (apply: NumberLoop, operand: number, number: number): NumberPass => ({ kind: "number", apply, operand, number });
  if (y.kind === "constant")
    switch (name) {
      case "add":
        return pass(numberLoops.plusNumber, left, y.value);
      case "subtract":
        return pass(numberLoops.plusNumber, left, -y.value);
      case "multiply":
        return pass(numberLoops.timesNumber, left, y.value);
      case "divide":
        return pass(numberLoops.overNumber, left, y.value);
    }
  if (x.kind === "constant")
    switch (name) {
      case "add":
        return pass(numberLoops.plusNumber, right, x.value);
      case "subtract":
        return pass(numberLoops.numberMinus, right, x.value);
      case "multiply":
        return pass(numberLoops.timesNumber, right, x.value);
    }
  return undefined;
}
