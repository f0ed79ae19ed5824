import { suggestName } from "../base/nearestName.ts";
import { failure, type Outcome, type Problem, success } from "../base/outcome.ts";
import { Column, complainAboutColumn } from "./column.ts";
import {
  type AggregateName,
  type Expression,
  type FunctionName,
  isAggregateName,
  isLineFunction,
  type LineFunctionName,
  type NumberExpression,
  type Operator,
} from "./expression.ts";
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
  functions: { readonly [F in Exclude<FunctionName, AggregateName | LineFunctionName>]: (...values: readonly [T, ...T[]]) => T };
  /** Of one value or more; `deviation` of two or more; `sum` and `count` also of none. */
  aggregates: { readonly [A in AggregateName]: (values: readonly T[]) => T };
  /** Why an operation that has an answer in plain numbers has none over this kind; undefined where it has. */
  refuse?(operation: Operator | FunctionName, values: readonly T[]): Refusal | undefined;
  /** Best estimate of a value, as a plain number. */
  estimate(value: T): number;
  /** False where any number inside a value is infinite or NaN. */
  isFinite(value: T): boolean;
}

/** Why an operation has no answer, and what a person can do. */
export type Refusal = Pick<Problem, "what" | "remedy">;

/** What the names of a formula stand for; any `Map` will do. */
export type Lookup<T> = Pick<ReadonlyMap<string, T>, "get" | "keys">;

/** One value, or all values of a column. */
export type ValueOrColumn<T> = T | Column<readonly T[]>;

/** The straight line through the rows of two columns. */
export interface LineOf<T> {
  readonly slope: T;
  /** The line's value at a place. */
  valueAt(place: T): T;
  /** Where the line has a value. */
  placeOf(value: T): T;
  /** Why no place can be told from a value; undefined where it can. */
  readonly noPlace: Refusal | undefined;
}

/** Why there is no line through two columns, and of which of them that is said. */
export interface LineRefusal extends Refusal {
  readonly of: "places" | "values";
}

/** What the names of a formula stand for, and the lines through columns among them; any `Map` will do where there are none. */
export interface ValueLookup<T> extends Lookup<ValueOrColumn<T>> {
  /** The same line, made of the same sources, whenever it is asked for. */
  lineThrough?(places: string, values: string): LineOf<T> | LineRefusal;
}

/**
 * The value of a formula, in base units. Dimensions are not looked at: that is
 * `checkDimensions`, once per formula and not once per evaluation.
 */
export function evaluateExpression<T>(expression: Expression, arithmetic: Arithmetic<T>, lookup: ValueLookup<T>): Outcome<T> {
  let problem: Problem | undefined;
  const refuse = ({ what, remedy }: Refusal, { character }: Expression): undefined => {
    problem = { at: "", what, character, ...(remedy && { remedy }) };
  };
  const refuseUnusable = (node: Expression) =>
    refuse({ what: node.kind === "number" && node.isFraction ? "division by zero" : "the result is too large, or is no number" }, node);

  const evaluate = (node: Expression): T | undefined => {
    const value = apply(node);
    return value === undefined || arithmetic.isFinite(value) ? value : refuseUnusable(node);
  };

  const apply = (node: Expression): T | undefined => {
    switch (node.kind) {
      case "number":
        return arithmetic.constant(baseValue(node));
      case "name": {
        const value = lookup.get(node.name);
        if (value instanceof Column) return refuse(complainAboutColumn(node.name), node);
        return value ?? refuse({ what: `unknown name "${node.name}"`, ...suggestName(node.name, lookup.keys()) }, node);
      }
      case "negate": {
        const operand = evaluate(node.operand);
        return operand === undefined ? undefined : arithmetic.negate(operand);
      }
      case "operation": {
        const left = evaluate(node.left);
        const right = left === undefined ? undefined : evaluate(node.right);
        if (left === undefined || right === undefined) return undefined;
        const reason =
          refuseOperation(node.operator, arithmetic.estimate(left), arithmetic.estimate(right)) ??
          arithmetic.refuse?.(node.operator, [left, right]);
        return reason ? refuse(reason, node) : arithmetic.operations[node.operator](left, right);
      }
      case "call":
        if (isLineFunction(node.function)) return onLine(node, node.function);
        return isAggregateName(node.function) ? aggregate(node, node.function) : call(node, node.function);
    }
  };

  const call = (node: Call, name: Exclude<FunctionName, AggregateName | LineFunctionName>): T | undefined => {
    const values: T[] = [];
    for (const argument of node.arguments) {
      const value = evaluate(argument);
      if (value === undefined) return undefined;
      values.push(value);
    }
    const [first, ...others] = values;
    if (first === undefined) throw new RangeError(`arguments of ${name}: expected at least one, got none`);
    const reason =
      refuseCall(name, arithmetic.estimate(first), others[0] === undefined ? 0 : arithmetic.estimate(others[0])) ??
      arithmetic.refuse?.(name, values);
    return reason ? refuse(reason, node) : arithmetic.functions[name](first, ...others);
  };

  const aggregate = (node: Call, name: AggregateName): T | undefined => {
    const values: T[] = [];
    for (const argument of node.arguments) {
      const column = argument.kind === "name" ? lookup.get(argument.name) : undefined;
      if (column instanceof Column) {
        for (const value of column.content) {
          if (!arithmetic.isFinite(value)) return refuseUnusable(argument);
          values.push(value);
        }
        continue;
      }
      const value = evaluate(argument);
      if (value === undefined) return undefined;
      values.push(value);
    }
    const reason = refuseAggregate(name, values.length) ?? arithmetic.refuse?.(name, values);
    return reason ? refuse(reason, node) : arithmetic.aggregates[name](values);
  };

  const onLine = (node: Call, name: LineFunctionName): T | undefined => {
    const [places, values, about] = node.arguments;
    if (places?.kind !== "name" || values?.kind !== "name") return refuse({ what: `${name} needs two columns of free tables` }, node);
    const line = lookup.lineThrough?.(places.name, values.name) ?? noLine;
    if ("what" in line) return refuse(line, line.of === "places" ? places : values);
    const given = about === undefined ? arithmetic.constant(0) : evaluate(about);
    if (given === undefined || name === "slope_of_line") return given && line.slope;
    if (name !== "place_on_line") return line.valueAt(given);
    return line.noPlace ? refuse(line.noPlace, node) : line.placeOf(given);
  };

  const value = evaluate(expression);
  return value === undefined ? failure(problem ?? { at: "", what: "the formula has no value" }) : success(value);
}

const noLine: LineRefusal = { what: "there is no column of this name here", of: "places" };

type Call = Expression & { readonly kind: "call" };

/** The value of a typed number in base units. */
function baseValue({ value, unit, decimals }: NumberExpression): number {
  return unit ? toBaseUnit(value, unit, decimals) : value;
}

function refuseOperation(operator: Operator, left: number, right: number): Refusal | undefined {
  if (operator === "/" && right === 0) return { what: "division by zero" };
  if (operator === "^" && left < 0 && !Number.isInteger(right)) return { what: "a negative number has no power that is not whole" };
  if (operator === "^" && left === 0 && right < 0) return { what: "division by zero: zero raised to a negative power" };
  return undefined;
}

function refuseCall(name: FunctionName, first: number, second: number): Refusal | undefined {
  if (name === "sqrt" && first < 0) return { what: "the root of a negative number" };
  if ((name === "asin" || name === "acos") && Math.abs(first) > 1) return { what: `${name} of a number outside -1 to 1` };
  if (name === "atan2" && first === 0 && second === 0) return { what: "atan2 of two zeros has no angle" };
  return undefined;
}

function refuseAggregate(name: AggregateName, count: number): Refusal | undefined {
  if (name === "deviation" && count < 2) return { what: `the deviation needs two values or more, not ${count}` };
  return count === 0 && name !== "sum" && name !== "count" ? { what: `${name} of a column without values` } : undefined;
}
