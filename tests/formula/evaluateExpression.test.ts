import { expect, it } from "vitest";
import { type Arithmetic, evaluateExpression } from "../../lib/formula/evaluateExpression.ts";
import { numberArithmetic } from "../../lib/formula/numberArithmetic.ts";
import { parseExpression } from "../../lib/formula/parseExpression.ts";

function value<T>(text: string, arithmetic: Arithmetic<T>, names: ReadonlyMap<string, T> = new Map()): T | string {
  const parsed = parseExpression(text);
  if (!parsed.ok) return parsed.problems[0]?.what ?? "";
  const outcome = evaluateExpression(parsed.value, arithmetic, names);
  return outcome.ok ? outcome.value : `${outcome.problems[0]?.what} @${outcome.problems[0]?.character}`;
}

// Closed forms.
it.each([
  ["1 + 2 * 3 - 4 / 2", 5],
  ["-2^2", -4],
  ["2^3^2", 512],
  ["2^-1", 0.5],
  ["sqrt(3^2 + 4^2)", 5],
  ["hypot(3, 4)", 5],
  ["abs(-3)", 3],
  ["sin(30 deg) * 2", 2 * Math.sin(Math.PI / 6)],
  ["tan(45 deg)", Math.tan(Math.PI / 4)],
  ["acos(1) + asin(0) + atan(0) + cos(0 rad)", 1],
  ["atan2(1, 0)", Math.PI / 2],
  ["atan2(-1, -1)", (-3 * Math.PI) / 4],
  ["atan2(-0, -1)", Math.PI],
  ["atan2(0 * -2, -1)", Math.PI],
  ["min(3, 1, 2) + max(3, 1, 2)", 4],
  ["mean(1, 2, 6)", 3],
  ["2 * pi", 2 * Math.PI],
  ["1/2 in + 1 mm", 13.7],
  ["10 thou", 0.254],
])("evaluateExpression(%j) over plain numbers is %d, lengths in mm, angles in radians", (text, expected) => {
  expect(value(text, numberArithmetic)).toBeCloseTo(expected, 14);
});

it.each([
  ["1 / (2 - 2)", "division by zero @2"],
  ["1/0 in", "division by zero @0"],
  ["sqrt(1 - 2)", "the root of a negative number @0"],
  ["1 + asin(2)", "asin of a number outside -1 to 1 @4"],
  ["(-8)^(1/3)", "a negative number has no power that is not whole @4"],
  ["0^-1", "division by zero: zero raised to a negative power @1"],
  ["atan2(0, 0)", "atan2 of two zeros has no angle @0"],
  ["1e200 * 1e200", "the result is too large, or is no number @6"],
  ["10^400", "the result is too large, or is no number @2"],
])("evaluateExpression(%j) refuses at the operation: %s", (text, expected) => {
  expect(value(text, numberArithmetic)).toBe(expected);
});

it("evaluateExpression(name) takes names from the lookup alone and points at unknown ones", () => {
  const names = new Map([
    ["boss", 12],
    ["bore", 8],
  ]);
  expect(value("boss - bore", numberArithmetic, names)).toBe(4);
  expect(value("boss - boore", numberArithmetic, names)).toBe('unknown name "boore" @7');
  for (const name of ["constructor", "__proto__", "toString", "hasOwnProperty"]) {
    expect(value(name, numberArithmetic, names)).toBe(`unknown name "${name}" @0`);
  }
});

/** A value with its derivative: a second arithmetic for the same walk. */
interface Dual {
  readonly value: number;
  readonly derivative: number;
}

const dual = (v: number, derivative = 0): Dual => ({ value: v, derivative });
const total = (all: readonly Dual[]): Dual => all.reduce((a, b) => dual(a.value + b.value, a.derivative + b.derivative), dual(0));
const dualArithmetic: Arithmetic<Dual> = {
  constant: (v) => dual(v),
  negate: (a) => dual(-a.value, -a.derivative),
  operations: {
    "+": (a, b) => dual(a.value + b.value, a.derivative + b.derivative),
    "-": (a, b) => dual(a.value - b.value, a.derivative - b.derivative),
    "*": (a, b) => dual(a.value * b.value, a.derivative * b.value + a.value * b.derivative),
    "/": (a, b) => dual(a.value / b.value, (a.derivative - (a.value / b.value) * b.derivative) / b.value),
    "^": (a, b) => dual(a.value ** b.value, b.value * a.value ** (b.value - 1) * a.derivative),
  },
  functions: {
    sqrt: (a) => dual(Math.sqrt(a.value), a.derivative / (2 * Math.sqrt(a.value))),
    abs: (a) => dual(Math.abs(a.value), Math.sign(a.value) * a.derivative),
    sin: (a) => dual(Math.sin(a.value), Math.cos(a.value) * a.derivative),
    cos: (a) => dual(Math.cos(a.value), -Math.sin(a.value) * a.derivative),
    tan: (a) => dual(Math.tan(a.value), a.derivative / Math.cos(a.value) ** 2),
    asin: (a) => dual(Math.asin(a.value), a.derivative / Math.sqrt(1 - a.value ** 2)),
    acos: (a) => dual(Math.acos(a.value), -a.derivative / Math.sqrt(1 - a.value ** 2)),
    atan: (a) => dual(Math.atan(a.value), a.derivative / (1 + a.value ** 2)),
    atan2: (y, x = y) =>
      dual(Math.atan2(y.value, x.value), (x.value * y.derivative - y.value * x.derivative) / (x.value ** 2 + y.value ** 2)),
    hypot: (...all) => {
      const length = Math.hypot(...all.map((a) => a.value));
      return dual(length, all.reduce((sum, a) => sum + a.value * a.derivative, 0) / length);
    },
    estimate: (a) => dual(a.value),
  },
  aggregates: {
    min: (all) => all.reduce((a, b) => (b.value < a.value ? b : a)),
    max: (all) => all.reduce((a, b) => (b.value > a.value ? b : a)),
    sum: total,
    mean: (all) => dual(total(all).value / all.length, total(all).derivative / all.length),
    count: (all) => dual(all.length),
    deviation: (all) => dual(numberArithmetic.aggregates.deviation(all.map((a) => a.value))),
  },
  estimate: (a) => a.value,
  isFinite: (a) => Number.isFinite(a.value) && Number.isFinite(a.derivative),
};

it.each([
  ["t - t", 0],
  ["t + d / 2", 1],
  ["3 * t^2", 12],
  ["sqrt(t)", 1 / (2 * Math.SQRT2)],
  ["d / t", -1.25],
  ["hypot(t, d)", 2 / Math.hypot(2, 5)],
  ["mean(t, d)", 0.5],
  ["atan2(t, d)", 5 / 29],
])("evaluateExpression(%j) over values with derivatives is the same walk: d/dt at t = 2, d = 5", (text, expected) => {
  const outcome = value(
    text,
    dualArithmetic,
    new Map([
      ["t", dual(2, 1)],
      ["d", dual(5)],
    ]),
  );
  expect(typeof outcome === "string" ? outcome : outcome.derivative).toBeCloseTo(expected, 14);
});

it("evaluateExpression(expression, arithmetic) stops where the arithmetic calls a value unusable", () => {
  expect(value("sqrt(t)", dualArithmetic, new Map([["t", dual(0, 1)]]))).toBe("the result is too large, or is no number @0");
});
