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
    atan2: (y, x = 1) => Math.atan2(y, x),
    hypot: Math.hypot,
    min: Math.min,
    max: Math.max,
    mean: (...values) => values.reduce((sum, value) => sum + value, 0) / values.length,
  },
  estimate: (value) => value,
  isFinite: Number.isFinite,
};
