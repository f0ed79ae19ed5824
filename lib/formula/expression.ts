import type { Unit } from "./units.ts";

/**
 * A formula as a tree: what is left of a typed text once it is known to be
 * harmless and well formed. `character` is the index in the typed text of the
 * sign or name that a complaint would point at.
 */
export type Expression =
  | NumberExpression
  | { readonly kind: "name"; readonly name: string; readonly character: number }
  | { readonly kind: "negate"; readonly operand: Expression; readonly character: number }
  | {
      readonly kind: "operation";
      readonly operator: Operator;
      readonly left: Expression;
      readonly right: Expression;
      readonly character: number;
    }
  | {
      readonly kind: "call";
      readonly function: FunctionName;
      readonly arguments: readonly Expression[];
      readonly character: number;
    };

export interface NumberExpression {
  readonly kind: "number";
  /** In `unit`; where there is none, a bare number. */
  readonly value: number;
  readonly unit?: Unit;
  /** Decimals as typed; absent where the value is not a typed decimal (`1/2 in`, `pi`). */
  readonly decimals?: number;
  /** Set for a fraction of two numbers before a unit, `1/2 in`, which binds like one number. */
  readonly isFraction?: true;
  /** The number as it was read, without its unit. */
  readonly text: string;
  readonly character: number;
}

export type Operator = "+" | "-" | "*" | "/" | "^";

export type FunctionName = keyof typeof argumentCounts;

/** How many arguments each function takes: from, to. */
export const argumentCounts = {
  sqrt: [1, 1],
  abs: [1, 1],
  sin: [1, 1],
  cos: [1, 1],
  tan: [1, 1],
  asin: [1, 1],
  acos: [1, 1],
  atan: [1, 1],
  atan2: [2, 2],
  hypot: [1, Number.POSITIVE_INFINITY],
  min: [1, Number.POSITIVE_INFINITY],
  max: [1, Number.POSITIVE_INFINITY],
  mean: [1, Number.POSITIVE_INFINITY],
  sum: [1, Number.POSITIVE_INFINITY],
  count: [1, Number.POSITIVE_INFINITY],
  deviation: [1, Number.POSITIVE_INFINITY],
  estimate: [1, 1],
  slope_of_line: [2, 2],
  intercept_of_line: [2, 2],
  value_on_line: [3, 3],
  place_on_line: [3, 3],
} as const satisfies Record<string, readonly [number, number]>;

export const functionNames: ReadonlySet<string> = new Set(Object.keys(argumentCounts));

export function isFunctionName(name: string): name is FunctionName {
  return functionNames.has(name);
}

/** The functions that look at many values as one: their arguments may be whole columns, single values, or both. */
const aggregates = ["mean", "min", "max", "sum", "count", "deviation"] as const satisfies readonly FunctionName[];
export type AggregateName = (typeof aggregates)[number];

export function isAggregateName(name: FunctionName): name is AggregateName {
  return aggregateNames.has(name);
}

const aggregateNames: ReadonlySet<string> = new Set(aggregates);

/**
 * The functions of the straight line through the rows of two columns: the places first, then the values found there. Behind them the place of which the
 * line's value is asked for, or the value of which the place is.
 */
const lineFunctions = ["slope_of_line", "intercept_of_line", "value_on_line", "place_on_line"] as const satisfies readonly FunctionName[];
export type LineFunctionName = (typeof lineFunctions)[number];

export function isLineFunction(name: FunctionName): name is LineFunctionName {
  return lineFunctionNames.has(name);
}

const lineFunctionNames: ReadonlySet<string> = new Set(lineFunctions);

/** The names that a formula uses, each once, in the order of their first use. Those of a statement are those of its expression. */
export function namesIn(expression: Expression): readonly string[] {
  const names = new Set<string>();
  for (const leaf of leavesOf(expression)) if (leaf.kind === "name") names.add(leaf.name);
  return [...names];
}

export type Leaf = Expression & { readonly kind: "number" | "name" };

/** Every number and name of a formula, from left to right. */
export function leavesOf(expression: Expression): readonly Leaf[] {
  const leaves: Leaf[] = [];
  collectLeaves(expression, leaves);
  return leaves;
}

function collectLeaves(expression: Expression, leaves: Leaf[]): void {
  switch (expression.kind) {
    case "number":
    case "name":
      leaves.push(expression);
      return;
    case "negate":
      collectLeaves(expression.operand, leaves);
      return;
    case "operation":
      collectLeaves(expression.left, leaves);
      collectLeaves(expression.right, leaves);
      return;
    case "call":
      for (const argument of expression.arguments) collectLeaves(argument, leaves);
  }
}
