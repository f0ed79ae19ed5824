import fc from "fast-check";
import type { Source } from "../../lib/uncertainty/source.ts";
import { binary, certain, fromSource, sum, type Uncertain, unary } from "../../lib/uncertainty/uncertain.ts";

export function sourceOf(id: string, estimate: number, standardDeviation = 0.001): Source {
  return {
    id,
    label: id,
    family: "process",
    estimate,
    distribution: { shape: "normal", standardDeviation },
    degreesOfFreedom: Number.POSITIVE_INFINITY,
    evidence: { kind: "stated" },
  };
}

/** A random formula over some inputs, written so that it stays inside every function's domain. */
export type Formula =
  | { readonly kind: "input"; readonly index: number }
  | { readonly kind: "number"; readonly value: number }
  | { readonly kind: "operation"; readonly name: Name; readonly left: Formula; readonly right: Formula };

const names = [
  "add",
  "subtract",
  "multiply",
  "divide",
  "power",
  "square root",
  "sine",
  "cosine",
  "tangent",
  "arcsine",
  "arccosine",
  "arctangent",
  "arctangent2",
  "hypotenuse",
  "negate",
  "absolute",
] as const;
type Name = (typeof names)[number];

export const formulas: fc.Arbitrary<Formula> = fc.letrec<{ formula: Formula; leaf: Formula }>((tie) => ({
  leaf: fc.oneof(
    fc.record({ kind: fc.constant("input" as const), index: fc.integer({ min: 0, max: 3 }) }),
    fc.record({ kind: fc.constant("number" as const), value: fc.integer({ min: -40, max: 40 }).map((tenths) => tenths / 10) }),
  ),
  formula: fc.oneof(
    { maxDepth: 5, withCrossShrink: true },
    tie("leaf"),
    fc.record({ kind: fc.constant("operation" as const), name: fc.constantFrom(...names), left: tie("formula"), right: tie("formula") }),
  ),
})).formula;

/** The formula in plain numbers: the test's own arithmetic. */
export function plain(formula: Formula, inputs: readonly number[]): number {
  if (formula.kind === "input") return inputs[formula.index] as number;
  if (formula.kind === "number") return formula.value;
  const x = plain(formula.left, inputs);
  const y = plain(formula.right, inputs);
  switch (formula.name) {
    case "add":
      return x + y;
    case "subtract":
      return x - y;
    case "multiply":
      return x * Math.sin(y);
    case "divide":
      return x / (2 + Math.cos(y));
    case "power":
      return (1.2 + Math.sin(x)) ** Math.cos(y);
    case "square root":
      return Math.sqrt(1 + x * x);
    case "sine":
      return Math.sin(x);
    case "cosine":
      return Math.cos(x);
    case "tangent":
      return Math.tan(Math.sin(x));
    case "arcsine":
      return Math.asin(0.9 * Math.sin(x));
    case "arccosine":
      return Math.acos(0.9 * Math.cos(x));
    case "arctangent":
      return Math.atan(x);
    case "arctangent2":
      return Math.atan2(2 + Math.sin(x), y);
    case "hypotenuse":
      return Math.sqrt(x * x + (1 + y * y) ** 2);
    case "negate":
      return -x;
    case "absolute":
      return Math.abs(1.5 + Math.sin(x));
  }
}

/** The same formula as a tape. */
export function taped(formula: Formula, inputs: readonly Uncertain[]): Uncertain {
  if (formula.kind === "input") return inputs[formula.index] as Uncertain;
  if (formula.kind === "number") return certain(formula.value);
  const x = taped(formula.left, inputs);
  const y = taped(formula.right, inputs);
  switch (formula.name) {
    case "add":
      return x.plus(y);
    case "subtract":
      return x.minus(y);
    case "multiply":
      return x.times(unary("sine", y));
    case "divide":
      return x.over(sum([certain(2), unary("cosine", y)]));
    case "power":
      return unary("sine", x).plus(1.2).power(unary("cosine", y));
    case "square root":
      return unary("squareRoot", x.times(x).plus(1));
    case "sine":
      return unary("sine", x);
    case "cosine":
      return unary("cosine", x);
    case "tangent":
      return unary("tangent", unary("sine", x));
    case "arcsine":
      return unary("arcsine", unary("sine", x).times(0.9));
    case "arccosine":
      return unary("arccosine", unary("cosine", x).times(0.9));
    case "arctangent":
      return unary("arctangent", x);
    case "arctangent2":
      return binary("arctangent2", unary("sine", x).plus(2), y);
    case "hypotenuse":
      return binary("hypotenuse", x, y.power(2).plus(1));
    case "negate":
      return x.negated();
    case "absolute":
      return unary("absolute", unary("sine", x).plus(1.5));
  }
}

export function inputsAt(estimates: readonly number[]): Uncertain[] {
  return estimates.map((estimate, i) => fromSource(sourceOf(`x${i}`, estimate)));
}
