import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { besselJ0, besselJ1 } from "../../../lib/uncertainty/special/besselJ.ts";
import { fisherUpperTail } from "../../../lib/uncertainty/special/fisherF.ts";
import { gaussLegendre } from "../../../lib/uncertainty/special/gaussLegendre.ts";
import { logGamma } from "../../../lib/uncertainty/special/logGamma.ts";
import { studentCharacteristic } from "../../../lib/uncertainty/special/studentCharacteristic.ts";
import { relativeError, specialReference } from "./specialFunctions.reference.ts";

it("logGamma(x) is within 2e-15 of mpmath, relative above 1 and absolute below", () => {
  for (const [x, value] of specialReference.logGamma)
    expect(Math.abs(logGamma(x) - value) / Math.max(1, Math.abs(value)), `x = ${x}`).toBeLessThan(2e-15);
});
it("logGamma(x) refuses x that is not above 0", () => {
  expect(() => logGamma(0)).toThrow("x: expected > 0, got 0");
});
it("fisherUpperTail(x, d1, d2) has 12 digits (mpmath)", () => {
  for (const [x, a, b, tail] of specialReference.fisherTail)
    expect(relativeError(fisherUpperTail(x, a, b), tail), `F = ${x}, ${a}, ${b}`).toBeLessThan(1e-12);
});
it("fisherUpperTail(0) is 1 and fisherUpperTail(Infinity) is 0", () => {
  expect([fisherUpperTail(0, 3, 4), fisherUpperTail(Number.POSITIVE_INFINITY, 3, 4)]).toEqual([1, 0]);
});
it("besselJ0(x) and besselJ1(x) are within 1e-15 of mpmath up to 54 000", () => {
  const { values }: { values: [number, number, number][] } = JSON.parse(
    readFileSync(new URL("../../reference/besselJ.json", import.meta.url), "utf8"),
  );
  for (const [x, j0, j1] of values) {
    expect(Math.abs(besselJ0(x) - j0), `J0(${x})`).toBeLessThan(1e-15);
    expect(Math.abs(besselJ1(x) - j1), `J1(${x})`).toBeLessThan(1e-15);
  }
});
it("besselJ0(-x) equals besselJ0(x) and besselJ1(-x) equals -besselJ1(x)", () => {
  for (const x of [0.5, 6, 11]) expect([besselJ0(-x), besselJ1(-x)]).toEqual([besselJ0(x), -besselJ1(x)]);
});
it("studentCharacteristic(ν)(s) is within 1e-13 of the Bessel K form, for whole, broken, odd and even ν (mpmath)", () => {
  for (const [nu, s, value] of specialReference.studentCharacteristic)
    expect(Math.abs(studentCharacteristic(nu)(s) - value), `ν = ${nu}, s = ${s}`).toBeLessThan(1e-13);
});
it("studentCharacteristic(1)(s) is exp(-s) and studentCharacteristic(Infinity)(s) is exp(-s²/2)", () => {
  expect(studentCharacteristic(1)(0.7)).toBeCloseTo(Math.exp(-0.7), 15);
  expect(studentCharacteristic(Number.POSITIVE_INFINITY)(0.7)).toBeCloseTo(Math.exp(-0.245), 15);
});
it("studentCharacteristic(ν) refuses degrees of freedom that are not above 0", () => {
  expect(() => studentCharacteristic(0)).toThrow("degreesOfFreedom: expected > 0, got 0");
});
it("gaussLegendre(n) integrates x^(2n-2) over -1 to 1 exactly, and x^(2n) not", () => {
  for (const count of [1, 2, 5, 20, 48]) {
    const { nodes, weights } = gaussLegendre(count);
    const integral = (power: number) => nodes.reduce((sum, node, k) => sum + (weights[k] as number) * node ** power, 0);
    expect(Math.abs(integral(2 * count - 2) - 2 / (2 * count - 1))).toBeLessThan(2e-14);
    if (count <= 5) expect(Math.abs(integral(2 * count) - 2 / (2 * count + 1))).toBeGreaterThan(1e-4);
  }
});
it("gaussLegendre(n) refuses a count that is not whole and above 0", () => {
  for (const count of [0, 1.5]) expect(() => gaussLegendre(count)).toThrow(`count: expected a whole number > 0, got ${count}`);
});
