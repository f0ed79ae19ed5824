import fc from "fast-check";
import { expect, it } from "vitest";
import { normalPosterior } from "../../lib/decision/normalPosterior.ts";

const known = (estimate: number, standardUncertainty: number) => ({ estimate, standardUncertainty });

it("normalPosterior(before, exact measurement) is the measurement", () => {
  const posterior = normalPosterior(known(3, 0.2), known(3.1, 0));
  expect(posterior.mean).toBeCloseTo(3.1, 14);
  expect(posterior.standardDeviation).toBe(0);
});

it("normalPosterior(exact, measurement) is what was known before", () => {
  expect(normalPosterior(known(3, 0), known(3.1, 0.2)).mean).toBe(3);
});

it("normalPosterior(exact, exact) is refused where they differ", () => {
  expect(normalPosterior(known(3, 0), known(3, 0)).mean).toBe(3);
  expect(() => normalPosterior(known(3, 0), known(3.1, 0))).toThrow("measured.estimate: expected 3, since both are exact, got 3.1");
});

it("normalPosterior(…) names what it refuses", () => {
  expect(() => normalPosterior(known(Number.NaN, 1), known(0, 1))).toThrow("before.estimate: expected finite, got NaN");
  expect(() => normalPosterior(known(0, 1), known(0, -1))).toThrow("measured.standardUncertainty: expected finite and >= 0, got -1");
});

it("normalPosterior(any) lies between both, is no less certain than either, and knows no order", () => {
  const estimate = fc.double({ min: -100, max: 100, noNaN: true });
  const uncertainty = fc.double({ min: 1e-6, max: 10, noNaN: true });
  fc.assert(
    fc.property(estimate, uncertainty, estimate, uncertainty, (a, ua, b, ub) => {
      const { mean, standardDeviation } = normalPosterior(known(a, ua), known(b, ub));
      expect(mean).toBeGreaterThanOrEqual(Math.min(a, b) - 1e-12);
      expect(mean).toBeLessThanOrEqual(Math.max(a, b) + 1e-12);
      expect(standardDeviation).toBeLessThanOrEqual(Math.min(ua, ub));
      const other = normalPosterior(known(b, ub), known(a, ua));
      expect(Math.abs(other.mean - mean)).toBeLessThan(1e-11);
      expect(Math.abs(other.standardDeviation - standardDeviation)).toBeLessThan(1e-14);
    }),
  );
});
