import type { Binary } from "../uncertain.ts";
import { operandsOfStep, type Step } from "./step.ts";

/** What is done with the columns of a block in one go: a step, two steps together, or nothing where a later pass does it. */
export type BlockPass = Step | PairPass | { readonly kind: "absorbed" };

/** A sum or difference of which one side is a sum, difference or product that nothing else needs: it gets no column of its own. */
export interface PairPass {
  readonly kind: "pair";
  readonly apply: PairLoop;
  /** Positions: the two operands of the inner step, and the other one of the outer step. */
  readonly operands: readonly [a: number, b: number, c: number];
}

type PairLoop = (to: Float64Array, a: Float64Array, b: Float64Array, c: Float64Array, count: number) => void;

/** One pass for every step. The same operations in the same order as step by step, so that results are the same to the last bit. */
export function passesOf(steps: readonly Step[], outputSteps: readonly number[]): BlockPass[] {
  const uses = new Int32Array(steps.length);
  for (const step of steps) for (const operand of operandsOfStep(step)) uses[operand] = (uses[operand] as number) + 1;
  // Results are needed from outside.
  for (const output of outputSteps) uses[output] = (uses[output] as number) + 1;
  const passes: BlockPass[] = [...steps];
  const absorb = (inner: number, outer: Binary, other: number, loops: PairLoops): PairPass | undefined => {
    const pass = passes[inner] as BlockPass;
    const apply = pass.kind === "binary" && uses[inner] === 1 ? loops[outer]?.[pass.name] : undefined;
    if (pass.kind !== "binary" || apply === undefined) return undefined;
    passes[inner] = { kind: "absorbed" };
    return { kind: "pair", apply, operands: [pass.left, pass.right, other] };
  };
  steps.forEach((step, position) => {
    if (step.kind !== "binary") return;
    const pair = absorb(step.left, step.name, step.right, innerFirst) ?? absorb(step.right, step.name, step.left, innerLast);
    if (pair) passes[position] = pair;
  });
  return passes;
}

/** Positions of the steps that a pass reads. */
export function operandsOfPass(pass: BlockPass): readonly number[] {
  return pass.kind === "pair" ? pass.operands : pass.kind === "absorbed" ? [] : operandsOfStep(pass);
}

/** By outer, then by inner operation; each a loop by itself, so that it is compiled for its own operations. */
type PairLoops = { readonly [Outer in Binary]?: { readonly [Inner in Binary]?: PairLoop } };

const plusOther = {
  add(to: Float64Array, a: Float64Array, b: Float64Array, c: Float64Array, count: number) {
    for (let i = 0; i < count; i++) to[i] = (a[i] as number) + (b[i] as number) + (c[i] as number);
  },
  subtract(to: Float64Array, a: Float64Array, b: Float64Array, c: Float64Array, count: number) {
    for (let i = 0; i < count; i++) to[i] = (a[i] as number) - (b[i] as number) + (c[i] as number);
  },
  multiply(to: Float64Array, a: Float64Array, b: Float64Array, c: Float64Array, count: number) {
    for (let i = 0; i < count; i++) to[i] = (a[i] as number) * (b[i] as number) + (c[i] as number);
  },
};

const minusOther = {
  add(to: Float64Array, a: Float64Array, b: Float64Array, c: Float64Array, count: number) {
    for (let i = 0; i < count; i++) to[i] = (a[i] as number) + (b[i] as number) - (c[i] as number);
  },
  subtract(to: Float64Array, a: Float64Array, b: Float64Array, c: Float64Array, count: number) {
    for (let i = 0; i < count; i++) to[i] = (a[i] as number) - (b[i] as number) - (c[i] as number);
  },
  multiply(to: Float64Array, a: Float64Array, b: Float64Array, c: Float64Array, count: number) {
    for (let i = 0; i < count; i++) to[i] = (a[i] as number) * (b[i] as number) - (c[i] as number);
  },
};

const otherMinus = {
  add(to: Float64Array, a: Float64Array, b: Float64Array, c: Float64Array, count: number) {
    for (let i = 0; i < count; i++) to[i] = (c[i] as number) - ((a[i] as number) + (b[i] as number));
  },
  subtract(to: Float64Array, a: Float64Array, b: Float64Array, c: Float64Array, count: number) {
    for (let i = 0; i < count; i++) to[i] = (c[i] as number) - ((a[i] as number) - (b[i] as number));
  },
  multiply(to: Float64Array, a: Float64Array, b: Float64Array, c: Float64Array, count: number) {
    for (let i = 0; i < count; i++) to[i] = (c[i] as number) - (a[i] as number) * (b[i] as number);
  },
};

const innerFirst: PairLoops = { add: plusOther, subtract: minusOther };
/** A sum is the same either way round. */
const innerLast: PairLoops = { add: plusOther, subtract: otherMinus };
