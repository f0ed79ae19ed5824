import { expect, it } from "vitest";
import { integrate } from "../../lib/uncertainty/special/integrate.ts";

// Elementary integrals.
it.each<[string, (x: number) => number, number[], number]>([
  ["a polynomial", (x) => 5 * x ** 4, [0, 1, 2], 32],
  ["1/√x, infinite at a break", (x) => 1 / Math.sqrt(x), [0, 4], 4],
  ["√(1 - x²) between its ends", (x) => Math.sqrt(1 - x * x), [-1, 1], Math.PI / 2],
  ["a jump that is no break", (x) => (x < 1 / 3 ? 1 : 0), [0, 1], 1 / 3],
  ["a kink that is no break", (x) => Math.max(0, x - 0.001), [0, 1], 0.999 ** 2 / 2],
  ["a narrow peak beside a break", (x) => Math.exp(-(((x - 0.5) / 1e-4) ** 2)) / (1e-4 * Math.sqrt(Math.PI)), [0, 0.5, 1], 1],
])("integrate(%s) is right, and its error bounds the true one", (_, f, breaks, expected) => {
  const { value, error } = integrate(f, breaks, 1e-13);
  expect(Math.abs(value - expected)).toBeLessThan(1e-11);
  expect(Math.abs(value - expected)).toBeLessThan(error + 1e-14 * (1 + expected));
});

it("integrate(f, one break or equal ones) is 0", () => {
  expect(integrate(Math.exp, [1], 1e-12)).toEqual({ value: 0, error: 0 });
  expect(integrate(Math.exp, [1, 1], 1e-12)).toEqual({ value: 0, error: 0 });
});
