import fc from "fast-check";
import { expect, it } from "vitest";
import { formatFixed, formatWithUncertainty } from "../../lib/uncertainty/roundForReport.ts";

// Expected strings follow from the decimal digits themselves.
it.each([
  [412.60746, 0.00331, "412.6075", "0.0033", 4],
  [-412.6, 0.00331, "-412.6000", "0.0033", 4],
  [100.02147, 0.00035, "100.02147", "0.00035", 5],
  [5, 0.0996, "5.00", "0.10", 2],
  [5, 0.0994, "5.000", "0.099", 3],
  [5.04, 1, "5.0", "1.0", 1],
  [1234.5, 12, "1235", "12", 0],
  [1250, 123, "1250", "120", -1],
  [-1250, 1200, "-1300", "1200", -2],
  [0.00004, 0.002, "0.0000", "0.0020", 4],
  [-0.00004, 0.002, "0.0000", "0.0020", 4],
])(
  "formatWithUncertainty(%d, %d) keeps two digits of the uncertainty and the value to match",
  (value, standardUncertainty, text, textOfU, decimals) => {
    expect(formatWithUncertainty(value, standardUncertainty)).toEqual({ value: text, standardUncertainty: textOfU, decimals });
  },
);

it("formatWithUncertainty(value, u, {digits}) keeps another number of digits", () => {
  expect(formatWithUncertainty(412.60745, 0.00331, { digits: 1 })).toEqual({ value: "412.607", standardUncertainty: "0.003", decimals: 3 });
  expect(formatWithUncertainty(412.60745, 0.00331, { digits: 3 })).toEqual({
    value: "412.60745",
    standardUncertainty: "0.00331",
    decimals: 5,
  });
});

it.each([
  [0.0031, "0.0031"],
  [0.00310001, "0.0032"],
  [0.0991, "0.10"],
  [0.35, "0.35"],
  [9.91, "10"],
])("formatWithUncertainty(1, %d, {direction: up}) never states less than was found: %s", (standardUncertainty, text) => {
  expect(formatWithUncertainty(1, standardUncertainty, { direction: "up" }).standardUncertainty).toBe(text);
});

it("formatWithUncertainty(value, 0) has no digit to match and takes the decimals it is given", () => {
  expect(formatWithUncertainty(2.54, 0)).toEqual({ value: "2.540000", standardUncertainty: "0", decimals: 6 });
  expect(formatWithUncertainty(2.54, 0, { decimalsWhenExact: 3 })).toEqual({ value: "2.540", standardUncertainty: "0", decimals: 3 });
});

it.each([
  [[Number.NaN, 1], "value: expected a finite number, got NaN"],
  [[1, -1], "standardUncertainty: expected a finite number >= 0, got -1"],
  [[1, Number.NaN], "standardUncertainty: expected a finite number >= 0, got NaN"],
  [[1, Number.POSITIVE_INFINITY], "standardUncertainty: expected a finite number >= 0, got Infinity"],
] as const)("formatWithUncertainty(%j) rejects the argument by name", ([value, standardUncertainty], message) => {
  expect(() => formatWithUncertainty(value, standardUncertainty)).toThrow(message);
});

it("formatWithUncertainty(1, 1, {digits: 0}) rejects the number of digits", () => {
  expect(() => formatWithUncertainty(1, 1, { digits: 0 })).toThrow("digits: expected 1 to 4, got 0");
});

it.each([
  [412.6075, 3, "412.608", "the double lies above the tie: 412.60750000000001591…"],
  [1.005, 2, "1.00", "the double lies below the tie: 1.00499999999999989…"],
  [0.125, 2, "0.13", "an exact tie goes away from zero"],
  [-0.125, 2, "-0.13", "an exact tie goes away from zero"],
  [2.5, 0, "3", "an exact tie goes away from zero"],
  [-0.0004, 3, "0.000", "no negative zero"],
  [-0, 2, "0.00", "no negative zero"],
  [1e20, 2, "100000000000000000000.00", "no exponent"],
  [1250, -2, "1300", "an exact tie of hundreds"],
  [-1249.9, -2, "-1200", "hundreds"],
  [-49, -2, "0", "no negative zero of hundreds"],
])("formatFixed(%d, %d) is %s: %s", (value, decimals, text) => {
  expect(formatFixed(value, decimals)).toBe(text);
});

it("formatFixed(value, decimals) rejects what it cannot write out", () => {
  expect(() => formatFixed(1e21, 2)).toThrow("value: expected a number below 1e21, got 1e+21");
  expect(() => formatFixed(Number.NaN, 2)).toThrow("value: expected a number below 1e21, got NaN");
  expect(() => formatFixed(1, 2.5)).toThrow("decimals: expected -20 to 20, got 2.5");
});

it("formatFixed(value, decimals) is within half a unit of the last place, and reads back what was written with so many decimals", () => {
  fc.assert(
    fc.property(fc.integer({ min: -10_000_000, max: 10_000_000 }), fc.integer({ min: 0, max: 6 }), (digits, decimals) => {
      const value = digits / 10 ** decimals;
      expect(Number(formatFixed(value, decimals))).toBe(value + 0);
      const fewer = Math.max(0, decimals - 2);
      expect(Math.abs(Number(formatFixed(value, fewer)) - value)).toBeLessThanOrEqual(0.5 * 10 ** -fewer * (1 + 1e-9));
    }),
    { numRuns: 1000 },
  );
});
