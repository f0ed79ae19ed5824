import fc from "fast-check";
import { expect, it } from "vitest";
import { effectiveDegreesOfFreedom } from "../../lib/uncertainty/effectiveDegreesOfFreedom.ts";

const contribution = fc.record({
  contribution: fc.double({ min: -10, max: 10, noNaN: true }),
  degreesOfFreedom: fc.oneof(fc.double({ min: 0.5, max: 1000, noNaN: true }), fc.constant(Number.POSITIVE_INFINITY)),
});

it("effectiveDegreesOfFreedom([one]) is its own degrees of freedom", () => {
  expect(effectiveDegreesOfFreedom([{ contribution: 0.3, degreesOfFreedom: 7 }])).toBeCloseTo(7, 12);
});
it("effectiveDegreesOfFreedom(n equal contributions) adds their degrees of freedom (closed form)", () => {
  expect(effectiveDegreesOfFreedom(Array.from({ length: 5 }, () => ({ contribution: 2, degreesOfFreedom: 4 })))).toBeCloseTo(20, 12);
});
it("effectiveDegreesOfFreedom([]), or of zeros, or of well-known ones only, is Infinity", () => {
  expect(effectiveDegreesOfFreedom([])).toBe(Number.POSITIVE_INFINITY);
  expect(effectiveDegreesOfFreedom([{ contribution: 0, degreesOfFreedom: 3 }])).toBe(Number.POSITIVE_INFINITY);
  expect(effectiveDegreesOfFreedom([{ contribution: 1, degreesOfFreedom: Number.POSITIVE_INFINITY }])).toBe(Number.POSITIVE_INFINITY);
});
it("effectiveDegreesOfFreedom(contributions on one estimate) counts them as one: Σ u² errs with the estimate's degrees of freedom (closed form)", () => {
  const on = (varianceEstimate: string, contribution: number) => ({ contribution, degreesOfFreedom: 6, varianceEstimate });
  expect(effectiveDegreesOfFreedom([on("pooled", 3), on("pooled", -4)])).toBeCloseTo(6, 12);
  // Two estimates of their own: (9 + 16)² / (81/6 + 256/6).
  expect(effectiveDegreesOfFreedom([on("one", 3), on("other", -4)])).toBeCloseTo((6 * 625) / 337, 12);
  // Beside 5 that is well known: (25 + 25)² / (25²/6); beside 5 of 10 degrees of freedom: (25 + 25)² / (25²/6 + 25²/10).
  const beside = (degreesOfFreedom: number) => [on("pooled", 3), { contribution: 5, degreesOfFreedom }, on("pooled", -4)];
  expect(effectiveDegreesOfFreedom(beside(Number.POSITIVE_INFINITY))).toBeCloseTo(24, 12);
  expect(effectiveDegreesOfFreedom(beside(10))).toBeCloseTo(15, 12);
});
it("effectiveDegreesOfFreedom(contributions) survives fourth powers that would underflow", () => {
  const tiny = [1e-100, 1e-100].map((size) => ({ contribution: size, degreesOfFreedom: 4 }));
  expect(effectiveDegreesOfFreedom(tiny)).toBeCloseTo(8, 12);
});
it("effectiveDegreesOfFreedom(contributions) lies between the fewest and the sum of the degrees of freedom, whatever the signs (JCGM 100, G.4.1)", () => {
  fc.assert(
    fc.property(fc.array(contribution, { minLength: 1, maxLength: 8 }), (contributions) => {
      const value = effectiveDegreesOfFreedom(contributions);
      const degrees = contributions.map(({ degreesOfFreedom }) => degreesOfFreedom);
      expect(value).toBeGreaterThanOrEqual(Math.min(...degrees) * (1 - 1e-12));
      if (contributions.every(({ contribution }) => contribution !== 0))
        expect(value).toBeLessThanOrEqual(degrees.reduce((a, b) => a + b) * (1 + 1e-9));
      const turned = contributions.map(({ contribution, degreesOfFreedom }) => ({ contribution: -contribution, degreesOfFreedom }));
      expect(effectiveDegreesOfFreedom(turned)).toBe(value);
    }),
    { numRuns: 300 },
  );
});
it("effectiveDegreesOfFreedom(contributions) names the argument and the value it rejects", () => {
  expect(() => effectiveDegreesOfFreedom([{ contribution: 1, degreesOfFreedom: 0 }])).toThrow("degreesOfFreedom: expected > 0, got 0");
  expect(() => effectiveDegreesOfFreedom([{ contribution: Number.NaN, degreesOfFreedom: 1 }])).toThrow(
    "contribution: expected finite, got NaN",
  );
});
