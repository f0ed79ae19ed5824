import { suggestName } from "../base/nearestName.ts";
import { failure, type Outcome, type Problem, success } from "../base/outcome.ts";
import type { Expression, FunctionName, NumberExpression, Operator } from "./expression.ts";
import { toBaseUnit } from "./units.ts";

/**
 * The kind of number that a formula is evaluated over: plain numbers, uncertain
 * values, whatever has these operations. Values are in base units (mm, rad, K).
 *
 * The walk refuses beforehand, by `estimate`, where an operation has no answer
 * (division by zero, the root of a negative number …), and afterwards where
 * `isFinite` says that the answer cannot be used; so an operation may assume a
 * sound argument and need not report anything.
 */
export interface Arithmetic<T> {
  constant(value: number): T;
  negate(value: T): T;
  operations: { readonly [O in Operator]: (left: T, right: T) => T };
  functions: { readonly [F in FunctionName]: (...values: readonly [T, ...T[]]) => T };
  /** Best estimate of a value, as a plain number. */
  estimate(value: T): number;
  /** False where any number inside a value is infinite or NaN. */
  isFinite(value: T): boolean;
}

/** What the names of a formula stand for; any `Map` will do. */
export type Lookup<T> = Pick<ReadonlyMap<string, T>, "get" | "keys">;

/**
 * The value of a formula, in base units. Dimensions are not looked at: that is
 * `checkDimensions`, once per formula and not once per evaluation.
 */
export function evaluateExpression<T>(expression: Expression, arithmetic: Arithmetic<T>, lookup: Lookup<T>): Outcome<T> {
  let problem: Problem | undefined;
  const refuse = (what: string, { character }: Expression, details: Partial<Problem> = {}): undefined => {
    problem = { at: "", what, character, ...details };
  };

  const evaluate = (node: Expression): T | undefined => {
    const value = apply(node);
    if (value === undefined || arithmetic.isFinite(value)) return value;
    return refuse(node.kind === "number" && node.isFraction ? "division by zero" : "the result is too large, or is no number", node);
  };

  const apply = (node: Expression): T | undefined => {
    switch (node.kind) {
      case "number":
        return arithmetic.constant(baseValue(node));
      case "name":
        return lookup.get(node.name) ?? refuse(`unknown name "${node.name}"`, node, suggestName(node.name, lookup.keys()));
      case "negate": {
        const operand = evaluate(node.operand);
        return operand === undefined ? undefined : arithmetic.negate(operand);
      }
      case "operation": {
        const left = evaluate(node.left);
        const right = left === undefined ? undefined : evaluate(node.right);
        if (left === undefined || right === undefined) return undefined;
        const reason = refuseOperation(node.operator, arithmetic.estimate(left), arithmetic.estimate(right));
        return reason ? refuse(reason, node) : arithmetic.operations[node.operator](left, right);
      }
      case "call": {
        const values = node.arguments.map(evaluate);
        const [first, ...others] = values.filter((value) => value !== undefined);
        if (first === undefined || others.length + 1 < values.length) return undefined;
        const reason = refuseCall(node.function, arithmetic.estimate(first), others[0] === undefined ? 0 : arithmetic.estimate(others[0]));
        return reason ? refuse(reason, node) : arithmetic.functions[node.function](first, ...others);
      }
    }
  };

  const value = evaluate(expression);
  return value === undefined ? failure(problem ?? { at: "", what: "the formula has no value" }) : success(value);
}

/** The value of a typed number in base units. */
function baseValue({ value, unit, decimals }: NumberExpression): number {
  return unit ? toBaseUnit(value, unit, decimals) : value;
}

function refuseOperation(operator: Operator, left: number, right: number): string | undefined {
  if (operator === "/" && right === 0) return "division by zero";
  if (operator === "^" && left < 0 && !Number.isInteger(right)) return "a negative number has no power that is not whole";
  if (operator === "^" && left === 0 && right < 0) return "division by zero: zero raised to a negative power";
  return undefined;
}

function refuseCall(name: FunctionName, first: number, second: number): string | undefined {
  if (name === "sqrt" && first < 0) return "the root of a negative number";
  if ((name === "asin" || name === "acos") && Math.abs(first) > 1) return `${name} of a number outside -1 to 1`;
  if (name === "atan2" && first === 0 && second === 0) return "atan2 of two zeros has no angle";
  return undefined;
}
