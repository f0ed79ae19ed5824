import { expect, it } from "vitest";
import { studentCumulative, studentDensity, studentQuantile, studentUpperTail } from "../../../lib/uncertainty/special/studentT.ts";
import { relativeError, specialReference } from "./specialFunctions.reference.ts";

it("studentUpperTail(t, ν) has 13 digits for ν from 0.1 to 100 000 (mpmath)", () => {
  for (const [t, nu, tail] of specialReference.studentTail)
    expect(relativeError(studentUpperTail(t, nu), tail), `t = ${t}, ν = ${nu}`).toBeLessThan(1e-13);
});
it("studentCumulative(-t, ν) equals studentUpperTail(t, ν)", () => {
  for (const [t, nu, tail] of specialReference.studentTail) expect(relativeError(studentCumulative(-t, nu), tail)).toBeLessThan(1e-13);
});
it("studentQuantile(p, ν) has 12 digits (scipy)", () => {
  for (const [p, nu, t] of specialReference.studentQuantile)
    expect(relativeError(studentQuantile(p, nu), t), `p = ${p}, ν = ${nu}`).toBeLessThan(1e-12);
});
it("studentQuantile(p, ν) has 12 digits in the far tail, whole or broken ν (mpmath)", () => {
  for (const [p, nu, t] of specialReference.studentFarQuantile)
    expect(relativeError(studentQuantile(p, nu), t), `p = ${p}, ν = ${nu}`).toBeLessThan(1e-12);
});
it("studentQuantile(p, 1) is the Cauchy quantile tan(π(p - ½)), also next to the middle", () => {
  for (const p of [0.1, 0.4, 0.4999999, 0.5000001, 0.9])
    expect(relativeError(studentQuantile(p, 1), Math.tan(Math.PI * (p - 0.5)))).toBeLessThan(1e-12);
});
it("studentQuantile(p, 2) is the closed form (2p - 1) / √(2p(1 - p))", () => {
  for (const p of [1e-8, 0.1, 0.4, 0.501, 0.9])
    expect(relativeError(studentQuantile(p, 2), (2 * p - 1) / Math.sqrt(2 * p * (1 - p)))).toBeLessThan(1e-12);
});
it("studentQuantile(p, Infinity) is the normal's", () => {
  expect(studentQuantile(0.975, Number.POSITIVE_INFINITY)).toBeCloseTo(1.959963984540054, 14); // scipy.stats.norm.ppf
});
it("studentQuantile(0), (0.5) and (1) are -Infinity, 0 and Infinity", () => {
  expect([studentQuantile(0, 3), studentQuantile(0.5, 3), studentQuantile(1, 3)]).toEqual([
    Number.NEGATIVE_INFINITY,
    0,
    Number.POSITIVE_INFINITY,
  ]);
});
it("studentDensity(t, ν) is the slope of the cumulative", () => {
  for (const nu of [0.5, 2, 7.3, 1e6]) {
    for (const t of [-2, 0.3, 4]) {
      const slope = (studentCumulative(t + 1e-4, nu) - studentCumulative(t - 1e-4, nu)) / 2e-4;
      expect(studentDensity(t, nu)).toBeCloseTo(slope, 7);
    }
  }
});
it("studentQuantile(p, ν) and studentUpperTail(t, ν) refuse degrees of freedom that are not above 0, by name", () => {
  for (const nu of [0, -1, Number.NaN]) {
    expect(() => studentQuantile(0.9, nu)).toThrow(`degreesOfFreedom: expected > 0, got ${nu}`);
    expect(() => studentUpperTail(1, nu)).toThrow(`degreesOfFreedom: expected > 0, got ${nu}`);
  }
});
