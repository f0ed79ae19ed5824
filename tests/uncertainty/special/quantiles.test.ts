import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { chiSquareQuantile } from "../../../lib/uncertainty/special/chiSquare.ts";
import { fisherUpperTail } from "../../../lib/uncertainty/special/fisherF.ts";
import { fisherQuantile } from "../../../lib/uncertainty/special/fisherQuantile.ts";
import { normalQuantile } from "../../../lib/uncertainty/special/normalQuantile.ts";
import { studentQuantile } from "../../../lib/uncertainty/special/studentT.ts";
import { relativeError } from "./specialFunctions.reference.ts";

/** tests/reference/statistics.py: mpmath with 30 digits. */
const reference: {
  readonly normalFarQuantile: readonly (readonly [p: number, z: number])[];
  readonly studentQuantile: readonly (readonly [p: number, nu: number, t: number])[];
  readonly chiSquareQuantile: readonly (readonly [p: number, nu: number, x: number])[];
  readonly fisherQuantile: readonly (readonly [p: number, numerator: number, denominator: number, x: number])[];
} = JSON.parse(readFileSync(new URL("../../reference/statistics.json", import.meta.url), "utf8"));

it("normalQuantile(p) has 14 digits down to the smallest double (mpmath)", () => {
  for (const [p, z] of reference.normalFarQuantile) expect(relativeError(normalQuantile(p), z), `p = ${p}`).toBeLessThan(1e-14);
});
it("studentQuantile(p, ν) has 12 digits for ν from 0.2 to 1e9 and p down to 1e-100 (mpmath)", () => {
  for (const [p, nu, t] of reference.studentQuantile)
    expect(relativeError(studentQuantile(p, nu), t), `p = ${p}, ν = ${nu}`).toBeLessThan(1e-12);
});
it("chiSquareQuantile(p, ν) has 12 digits for ν from 0.1 to 20 000 and p from 1e-30 (mpmath)", () => {
  for (const [p, nu, x] of reference.chiSquareQuantile)
    expect(relativeError(chiSquareQuantile(p, nu), x), `p = ${p}, ν = ${nu}`).toBeLessThan(1e-12);
});
it("fisherQuantile(p, ν1, ν2) has 12 digits in both tails, for degrees of freedom from 0.5 to 984 (mpmath)", () => {
  for (const [p, numerator, denominator, x] of reference.fisherQuantile)
    expect(relativeError(fisherQuantile(p, numerator, denominator), x), `p = ${p}, ${numerator}, ${denominator}`).toBeLessThan(1e-12);
});
it("fisherQuantile(1 - α) is where fisherUpperTail leaves α, and the reciprocal with the degrees of freedom exchanged", () => {
  for (const alpha of [0.001, 0.05, 0.5, 0.9]) {
    const x = fisherQuantile(1 - alpha, 9, 40);
    expect(relativeError(fisherUpperTail(x, 9, 40), alpha)).toBeLessThan(1e-12);
    expect(relativeError(x, 1 / fisherQuantile(alpha, 40, 9))).toBeLessThan(1e-12);
  }
});
it("fisherQuantile(p, 1, ν) is the square of Student's t", () => {
  for (const nu of [1, 4, 30.5]) expect(relativeError(fisherQuantile(0.95, 1, nu), studentQuantile(0.975, nu) ** 2)).toBeLessThan(1e-12);
});
it("fisherQuantile(p, ν, Infinity) is chi-square by its degrees of freedom, and 1 between two known variances", () => {
  const known = Number.POSITIVE_INFINITY;
  expect(fisherQuantile(0.95, 7, known)).toBe(chiSquareQuantile(0.95, 7) / 7);
  expect(relativeError(fisherQuantile(0.95, known, 7), 7 / chiSquareQuantile(0.05, 7))).toBeLessThan(1e-13);
  expect(fisherQuantile(0.95, known, known)).toBe(1);
});
it("fisherQuantile(0) and (1) are 0 and Infinity", () => {
  expect([fisherQuantile(0, 3, 4), fisherQuantile(1, 3, 4)]).toEqual([0, Number.POSITIVE_INFINITY]);
});
it("fisherQuantile names the argument and the value it rejects", () => {
  expect(() => fisherQuantile(1.5, 3, 4)).toThrow("probability: expected 0 to 1, got 1.5");
  expect(() => fisherQuantile(0.5, 0, 4)).toThrow("numeratorDegrees: expected > 0, got 0");
  expect(() => fisherQuantile(0.5, 3, Number.NaN)).toThrow("denominatorDegrees: expected > 0, got NaN");
});
