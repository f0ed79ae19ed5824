import type { Source } from "./source.ts";

/** How a value was made from others. */
export type Operation =
  | { readonly kind: "constant" }
  | { readonly kind: "source"; readonly source: Source }
  | { readonly kind: "unary"; readonly name: Unary; readonly operand: Uncertain }
  | { readonly kind: "binary"; readonly name: Binary; readonly left: Uncertain; readonly right: Uncertain }
  | { readonly kind: "solved"; readonly solution: Solution; readonly index: number };

export type Unary = "negate" | "squareRoot" | "sine" | "cosine" | "tangent" | "arcsine" | "arccosine" | "arctangent" | "absolute";
export type Binary = "add" | "subtract" | "multiply" | "divide" | "arctangent2" | "hypotenuse" | "power" | "minimum" | "maximum";

/**
 * A rule that finds several unknowns from several inputs at once: a fit, a frame.
 * It is one step of the computation with its own derivatives (implicit) and its
 * own way of being sampled (solved again in every trial).
 */
export interface Solver {
  readonly outputCount: number;
  /** Writes the unknowns for these inputs; returns false when there is no solution. */
  solve(inputs: Float64Array, outputs: Float64Array): boolean;
  /** Derivatives of every unknown by every input at a solution, row-major unknown × input. */
  sensitivities(inputs: Float64Array, outputs: Float64Array): Float64Array;
}

/** One solved step: the inputs, the rule and the unknowns that came out. */
export class Solution {
  readonly solver: Solver;
  readonly inputs: readonly Uncertain[];
  readonly values: Float64Array;
  private derivatives: Float64Array | undefined;

  /**
   * @param known the unknowns and their derivatives at the inputs' best estimates, where a caller has them
   * @throws Error when the rule finds no solution at the inputs' best estimates; a caller checks that first
   */
  constructor(solver: Solver, inputs: readonly Uncertain[], known?: { readonly values: Float64Array; readonly derivatives: Float64Array }) {
    this.solver = solver;
    this.inputs = inputs;
    this.values = known?.values ?? new Float64Array(solver.outputCount);
    this.derivatives = known?.derivatives;
    if (known === undefined && !solver.solve(this.estimates(), this.values)) {
      throw new Error("Solution: the solver found no solution at the best estimates of its inputs");
    }
  }

  /** Derivatives of every unknown by every input at the best estimates, row-major unknown × input; worked out once. */
  sensitivities(): Float64Array {
    this.derivatives ??= this.solver.sensitivities(this.estimates(), this.values);
    return this.derivatives;
  }

  private estimates(): Float64Array {
    return Float64Array.from(this.inputs, ({ value }) => value);
  }

  outputs(): Uncertain[] {
    return Array.from(this.values, (value, index) => new Uncertain(value, { kind: "solved", solution: this, index }));
  }
}

/**
 * A number that remembers how it was made: a step of a computation whose leaves
 * are sources. Value, signed sensitivities, budget, covariance with any other
 * value, and samples are all read off that memory (see tape.ts), so doubts that
 * two results share cancel or add by themselves.
 *
 * Immutable. Arithmetic with a plain number is exact in that number.
 */
export class Uncertain {
  /** The value at the best estimates of all sources. */
  readonly value: number;
  readonly operation: Operation;
  /** Scratch of the layout that has met this value last (see tape.ts), no part of the value: a table beside it would cost more than the rest of the layout. */
  layout = 0;
  /** Its step in that layout. */
  step = 0;

  constructor(value: number, operation: Operation) {
    this.value = value;
    this.operation = operation;
  }

  plus(other: Uncertain | number): Uncertain {
    const right = toUncertain(other);
    if (isConstant(right, 0)) return this;
    if (isConstant(this, 0)) return right;
    return binary("add", this, right);
  }

  minus(other: Uncertain | number): Uncertain {
    const right = toUncertain(other);
    if (isConstant(right, 0)) return this;
    return binary("subtract", this, right);
  }

  times(other: Uncertain | number): Uncertain {
    const right = toUncertain(other);
    if (isConstant(right, 1)) return this;
    if (isConstant(this, 1)) return right;
    if (isConstant(right, 0) || isConstant(this, 0)) return certain(0);
    return binary("multiply", this, right);
  }

  over(other: Uncertain | number): Uncertain {
    const right = toUncertain(other);
    if (isConstant(right, 1)) return this;
    return binary("divide", this, right);
  }

  power(other: Uncertain | number): Uncertain {
    return binary("power", this, toUncertain(other));
  }

  negated(): Uncertain {
    return unary("negate", this);
  }
}

/** A value without doubt. */
export function certain(value: number): Uncertain {
  return new Uncertain(value, { kind: "constant" });
}

/** The value of a source: its best estimate, and all of its doubt. */
export function fromSource(source: Source): Uncertain {
  return new Uncertain(source.estimate, { kind: "source", source });
}

/** The sum of all terms; 0 for none. */
export function sum(terms: readonly Uncertain[]): Uncertain {
  return terms.reduce((total, term) => total.plus(term), certain(0));
}

/** Applies a function of one value. */
export function unary(name: Unary, operand: Uncertain): Uncertain {
  const value = unaryValue(name, operand.value);
  return isConstant(operand) ? certain(value) : new Uncertain(value, { kind: "unary", name, operand });
}

/** Applies a function of two values. */
export function binary(name: Binary, left: Uncertain, right: Uncertain): Uncertain {
  const value = binaryValue(name, left.value, right.value);
  return isConstant(left) && isConstant(right) ? certain(value) : new Uncertain(value, { kind: "binary", name, left, right });
}

export function unaryValue(name: Unary, x: number): number {
  switch (name) {
    case "negate":
      return -x;
    case "squareRoot":
      return Math.sqrt(x);
    case "sine":
      return Math.sin(x);
    case "cosine":
      return Math.cos(x);
    case "tangent":
      return Math.tan(x);
    case "arcsine":
      return Math.asin(x);
    case "arccosine":
      return Math.acos(x);
    case "arctangent":
      return Math.atan(x);
    case "absolute":
      return Math.abs(x);
  }
}

export function binaryValue(name: Binary, x: number, y: number): number {
  switch (name) {
    case "add":
      return x + y;
    case "subtract":
      return x - y;
    case "multiply":
      return x * y;
    case "divide":
      return x / y;
    case "arctangent2":
      // A difference of nothing may be -0, and lies to neither side.
      return Math.atan2(x + 0, y);
    case "hypotenuse":
      return Math.sqrt(x * x + y * y);
    case "power":
      return x ** y;
    case "minimum":
      return Math.min(x, y);
    case "maximum":
      return Math.max(x, y);
  }
}

function toUncertain(other: Uncertain | number): Uncertain {
  return typeof other === "number" ? certain(other) : other;
}

function isConstant(value: Uncertain, equalTo?: number): boolean {
  return value.operation.kind === "constant" && (equalTo === undefined || value.value === equalTo);
}
