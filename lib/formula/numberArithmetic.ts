import { meanOf, summariseRepeats } from "../uncertainty/repeats.ts";
import type { Arithmetic } from "./evaluateExpression.ts";

/** Plain numbers, in base units. */
export const numberArithmetic: Arithmetic<number> = {
  constant: (value) => value,
  negate: (value) => -value,
  operations: {
    "+": (left, right) => left + right,
    "-": (left, right) => left - right,
    "*": (left, right) => left * right,
    "/": (left, right) => left / right,
    "^": (left, right) => left ** right,
  },
  functions: {
    sqrt: Math.sqrt,
    abs: Math.abs,
    sin: Math.sin,
    cos: Math.cos,
    tan: Math.tan,
    asin: Math.asin,
    acos: Math.acos,
    atan: Math.atan,
    // Of -0, which nobody typed, it would be -180 degrees.
    atan2: (y, x = 1) => Math.atan2(y + 0, x),
    hypot: Math.hypot,
    estimate: (value) => value,
  },
  aggregates: {
    // Not by spreading: a long column would run out of stack.
    min: (values) => values.reduce((a, b) => Math.min(a, b)),
    max: (values) => values.reduce((a, b) => Math.max(a, b)),
    sum: (values) => values.reduce((total, value) => total + value, 0),
    mean: meanOf,
    count: ({ length }) => length,
    deviation: (values) => summariseRepeats(values).standardDeviation ?? Number.NaN,
  },
  estimate: (value) => value,
  isFinite: Number.isFinite,
};
