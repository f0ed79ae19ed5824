import { Tape } from "../uncertainty/tape.ts";
import { binary, certain, sum, type Uncertain, unary } from "../uncertainty/uncertain.ts";
import type { Arithmetic, Refusal } from "./evaluateExpression.ts";
import type { AggregateName, FunctionName, Operator } from "./expression.ts";
import { numberArithmetic } from "./numberArithmetic.ts";

/**
 * Uncertain values, in base units: the result remembers how it was made, so
 * that doubts shared by its parts cancel or add by themselves.
 *
 * Refused, beside what plain numbers refuse: an operation at a place where it
 * has no finite derivative (the root at 0, the corner of an absolute value, two
 * equal candidates for a minimum …) while its operand is in doubt there. The
 * law of propagation (JCGM 100:2008, 5.1.2) takes the derivatives at the best
 * estimates, and none exists. An operand without doubt is no trouble.
 */
export const uncertainArithmetic: Arithmetic<Uncertain> = {
  constant: certain,
  negate: (value) => value.negated(),
  operations: {
    "+": (left, right) => left.plus(right),
    "-": (left, right) => left.minus(right),
    "*": (left, right) => left.times(right),
    "/": (left, right) => left.over(right),
    "^": raise,
  },
  functions: {
    sqrt: (value) => unary("squareRoot", value),
    abs: (value) => unary("absolute", value),
    sin: (value) => unary("sine", value),
    cos: (value) => unary("cosine", value),
    tan: (value) => unary("tangent", value),
    asin: (value) => unary("arcsine", value),
    acos: (value) => unary("arccosine", value),
    atan: (value) => unary("arctangent", value),
    atan2: (y, x = certain(1)) => binary("arctangent2", y, x),
    hypot: (...values) => hypotenuse(values),
    estimate: ({ value }) => certain(value),
  },
  aggregates: {
    min: (values) => values.reduce((a, b) => (a === b ? a : binary("minimum", a, b))),
    max: (values) => values.reduce((a, b) => (a === b ? a : binary("maximum", a, b))),
    sum,
    mean: (values) => (values.every(isSure) ? certain(overNumbers("mean", values)) : sum(values).over(values.length)),
    count: ({ length }) => certain(length),
    deviation: (values) => certain(overNumbers("deviation", values)),
  },
  refuse: (operation, values) => (values.every(isSure) ? undefined : refuseDerivative(operation, values)),
  estimate: ({ value }) => value,
  isFinite: ({ value }) => Number.isFinite(value),
};

/** A function of many values of their best estimates alone. */
function overNumbers(name: AggregateName, values: readonly Uncertain[]): number {
  return numberArithmetic.aggregates[name](values.map(({ value }) => value));
}

function isSure({ operation }: Uncertain): boolean {
  return operation.kind === "constant";
}

/** The powers 0 and 1 by themselves: y · x^(y − 1) has no value at x = y = 0. */
function raise(base: Uncertain, exponent: Uncertain): Uncertain {
  if (isSure(exponent) && exponent.value === 0) return certain(1);
  return isSure(exponent) && exponent.value === 1 ? base : base.power(exponent);
}

/** From the largest value on, so that no part of the sum is zero unless all values are. */
function hypotenuse(values: readonly Uncertain[]): Uncertain {
  if (values.every(isSure)) return certain(Math.hypot(...values.map(({ value }) => value)));
  const [largest, ...others] = values.toSorted((a, b) => Math.abs(b.value) - Math.abs(a.value)) as [Uncertain, ...Uncertain[]];
  return others.length === 0 ? unary("absolute", largest) : others.reduce((length, value) => binary("hypotenuse", length, value), largest);
}

/** @param values at least one of them in doubt */
function refuseDerivative(operation: Operator | FunctionName, values: readonly Uncertain[]): Refusal | undefined {
  const [first, second] = values as readonly [Uncertain, Uncertain?];
  switch (operation) {
    case "sqrt":
      return first.value === 0 ? atZero("the root of an uncertain value", "is infinitely steep") : undefined;
    case "asin":
    case "acos":
      if (Math.abs(first.value) !== 1) return undefined;
      return { what: `${operation} of an uncertain value is infinitely steep at ${first.value}`, remedy: setAside };
    case "abs":
      return first.value === 0 && !moveAlike([first, certain(0)]) ? atZero("abs of an uncertain value", "has a corner") : undefined;
    case "hypot":
      return values.every(({ value }) => value === 0) ? atZero("hypot of uncertain values", "has a corner") : undefined;
    case "atan2": {
      const isOnTheCut = first.value === 0 && !isSure(first) && second !== undefined && second.value < 0;
      return isOnTheCut ? { what: "atan2 of uncertain values jumps from 180 deg to -180 deg here", remedy: setAside } : undefined;
    }
    case "min":
    case "max":
      return refuseTie(operation, values);
    case "^":
      return second && refusePower(first, second);
    default:
      return undefined;
  }
}

const setAside = "put the doubt aside with estimate( ) if that is meant";

function atZero(what: string, how: string): Refusal {
  return { what: `${what} ${how} at 0`, remedy: setAside };
}

/** Candidates that are equal at the best estimates, of which each small change could make another the result. */
function refuseTie(operation: "min" | "max", values: readonly Uncertain[]): Refusal | undefined {
  const best = overNumbers(operation, values);
  const tied = [...new Set(values.filter(({ value }) => value === best))];
  if (tied.length < 2 || tied.every(isSure) || moveAlike(tied)) return undefined;
  return { what: `${operation} of equal values that are uncertain: which of them it follows is not defined`, remedy: setAside };
}

/** Whether all values change in the same way with every source. */
function moveAlike(values: readonly Uncertain[]): boolean {
  const tape = new Tape(values);
  const first = tape.sensitivities(0);
  return values.every((_, output) => tape.sensitivities(output).every((sensitivity, source) => sensitivity === first[source]));
}

function refusePower(base: Uncertain, exponent: Uncertain): Refusal | undefined {
  if (isSure(exponent)) {
    const isSmooth = base.value !== 0 || (Number.isInteger(exponent.value) && exponent.value >= 0);
    return isSmooth ? undefined : atZero("a power that is not whole, of an uncertain value,", "cannot be told on both sides");
  }
  if (base.value < 0) return { what: "a negative number has no power that is not surely whole", remedy: setAside };
  if (base.value > 0 || (isSure(base) && exponent.value > 0)) return undefined;
  return atZero("a power with an uncertain exponent", "cannot be told");
}
