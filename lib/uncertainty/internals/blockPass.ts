import type { Binary } from "../uncertain.ts";
import type { BlockLoops } from "./blockLoops.ts";
import { operandsOfStep, type Step } from "./step.ts";

type NumberName = keyof BlockLoops["number"];
type PairOuter = "plusOther" | "minusOther" | "otherMinus";
type PairInner = keyof BlockLoops[PairOuter];
type ProductsName = keyof BlockLoops["products"];

/** What is done with the columns of a block in one go: a step, two or three steps together, or nothing where a later pass does it. */
export type BlockPass = Step | NumberPass | PairPass | ProductsPass | { readonly kind: "absorbed" };

/** A step of which one operand is the same in all trials. */
interface NumberPass {
  readonly kind: "number";
  readonly loop: NumberName;
  readonly operand: number;
  readonly number: number;
}

/** A sum or difference of which one side is a sum, difference or product that nothing else needs: it gets no column of its own. */
interface PairPass {
  readonly kind: "pair";
  readonly outer: PairOuter;
  readonly inner: PairInner;
  /** Positions: the two operands of the inner step, and the other one of the outer step. */
  readonly operands: readonly [a: number, b: number, c: number];
}

/** A sum or difference of two products that nothing else needs. */
interface ProductsPass {
  readonly kind: "products";
  readonly loop: ProductsName;
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
    const ofProducts = left?.name === "multiply" && right?.name === "multiply" && isSum(step.name) ? step.name : undefined;
    if (left && right && ofProducts) {
      passes[position] = { kind: "products", loop: ofProducts, operands: [left.left, left.right, right.left, right.right] };
      absorb([step.left, step.right]);
    } else if (left && isSum(step.name) && isInner(left.name)) {
      const outer = step.name === "add" ? "plusOther" : "minusOther";
      passes[position] = { kind: "pair", outer, inner: left.name, operands: [left.left, left.right, step.right] };
      absorb([step.left]);
    } else if (right && isSum(step.name) && isInner(right.name)) {
      // A sum is the same either way round.
      const outer = step.name === "add" ? "plusOther" : "otherMinus";
      passes[position] = { kind: "pair", outer, inner: right.name, operands: [right.left, right.right, step.left] };
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
function isSum(name: Binary): name is ProductsName {
  return name === "add" || name === "subtract";
}

function isInner(name: Binary): name is PairInner {
  return isSum(name) || name === "multiply";
}

function withNumber({ name, left, right }: BinaryStep, steps: readonly Step[]): NumberPass | undefined {
  const [x, y] = [steps[left] as Step, steps[right] as Step];
  const pass = (loop: NumberName, operand: number, number: number): NumberPass => ({ kind: "number", loop, operand, number });
  if (y.kind === "constant")
    switch (name) {
      case "add":
        return pass("plusNumber", left, y.value);
      case "subtract":
        return pass("plusNumber", left, -y.value);
      case "multiply":
        return pass("timesNumber", left, y.value);
      case "divide":
        return pass("overNumber", left, y.value);
    }
  if (x.kind === "constant")
    switch (name) {
      case "add":
        return pass("plusNumber", right, x.value);
      case "subtract":
        return pass("numberMinus", right, x.value);
      case "multiply":
        return pass("timesNumber", right, x.value);
    }
  return undefined;
}
