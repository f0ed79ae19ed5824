import { expect, it } from "vitest";
import { normalCumulative, normalDensity, normalUpperTail } from "../../../lib/uncertainty/special/normalCumulative.ts";
import { normalQuantile } from "../../../lib/uncertainty/special/normalQuantile.ts";
import { relativeError, specialReference } from "./specialFunctions.reference.ts";

it("normalUpperTail(z) has 14 digits, out to 37 standard deviations (mpmath)", () => {
  for (const [z, tail] of specialReference.normalTail) expect(relativeError(normalUpperTail(z), tail), `z = ${z}`).toBeLessThan(1e-14);
});
it("normalCumulative(z) is the upper tail of -z, so the far lower tail keeps its digits", () => {
  for (const [z, tail] of specialReference.normalTail) expect(relativeError(normalCumulative(-z), tail), `z = ${z}`).toBeLessThan(1e-14);
});
it("normalCumulative(±Infinity) is 1 and 0", () => {
  expect([normalCumulative(Number.POSITIVE_INFINITY), normalCumulative(Number.NEGATIVE_INFINITY)]).toEqual([1, 0]);
});
it("normalDensity(z) is exp(-z²/2)/√(2π)", () => {
  for (const z of [-3, 0, 0.5, 7])
    expect(relativeError(normalDensity(z), Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI))).toBeLessThan(1e-13);
});
it("normalQuantile(p) has 14 digits from 1e-300 to 0.9999 (scipy)", () => {
  for (const [p, z] of specialReference.normalQuantile) expect(relativeError(normalQuantile(p), z), `p = ${p}`).toBeLessThan(1e-14);
});
it("normalQuantile(0), (0.5) and (1) are -Infinity, 0 and Infinity", () => {
  expect([normalQuantile(0), normalQuantile(0.5), normalQuantile(1)]).toEqual([Number.NEGATIVE_INFINITY, 0, Number.POSITIVE_INFINITY]);
});
it("normalQuantile(p) refuses a p that is no chance, by name", () => {
  for (const p of [-0.1, 1.1, Number.NaN]) expect(() => normalQuantile(p)).toThrow(`probability: expected 0 to 1, got ${p}`);
});
