import { expect, it } from "vitest";
import { chiSquareCumulative, chiSquareQuantile, chiSquareUpperTail } from "../../../lib/uncertainty/special/chiSquare.ts";
import { relativeError, specialReference } from "./specialFunctions.reference.ts";

it("chiSquareCumulative(x, ν) and chiSquareUpperTail(x, ν) have 12 digits, both tails included (mpmath)", () => {
  for (const [x, nu, lower, upper] of specialReference.chiSquare) {
    expect(relativeError(chiSquareCumulative(x, nu), lower), `lower, x = ${x}, ν = ${nu}`).toBeLessThan(1e-12);
    expect(relativeError(chiSquareUpperTail(x, nu), upper), `upper, x = ${x}, ν = ${nu}`).toBeLessThan(1e-12);
  }
});
it("chiSquareQuantile(p, ν) has 12 digits (scipy)", () => {
  for (const [p, nu, x] of specialReference.chiSquareQuantile)
    expect(relativeError(chiSquareQuantile(p, nu), x), `p = ${p}, ν = ${nu}`).toBeLessThan(1e-12);
});
it("chiSquareQuantile(p, 2) is the closed form -2 ln(1 - p)", () => {
  for (const p of [1e-9, 0.2, 0.5, 0.95, 0.999]) expect(relativeError(chiSquareQuantile(p, 2), -2 * Math.log1p(-p))).toBeLessThan(1e-13);
});
it("chiSquareQuantile(0) and (1) are 0 and Infinity", () => {
  expect([chiSquareQuantile(0, 5), chiSquareQuantile(1, 5)]).toEqual([0, Number.POSITIVE_INFINITY]);
});
it("chiSquareQuantile(p, ν) names the argument and the value it rejects", () => {
  expect(() => chiSquareQuantile(2, 5)).toThrow("probability: expected 0 to 1, got 2");
  expect(() => chiSquareQuantile(0.5, 0)).toThrow("degreesOfFreedom: expected finite and > 0, got 0");
  expect(() => chiSquareCumulative(-1, 5)).toThrow("x: expected >= 0, got -0.5");
});
