import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { quantileOf } from "../../lib/uncertainty/quantileOf.ts";
import { halfWidthOf, type SourceDistribution } from "../../lib/uncertainty/sourceDistribution.ts";

/** Distribution functions in closed form, on half-width or scale 1 (JCGM 101:2008, 6.4; Student's t for 1 and 2 degrees of freedom). */
const closed: readonly (readonly [SourceDistribution, (x: number) => number])[] = [
  [{ shape: "rectangular", halfWidth: 1 }, (x) => (x + 1) / 2],
  [{ shape: "triangular", halfWidth: 1 }, (x) => (x < 0 ? (1 + x) ** 2 / 2 : 1 - (1 - x) ** 2 / 2)],
  [{ shape: "trapezoidal", halfWidth: 1, topRatio: 0.35 }, (x) => trapezoid(x, 0.35)],
  [{ shape: "trapezoidal", halfWidth: 1, topRatio: 0 }, (x) => trapezoid(x, 0)],
  [{ shape: "trapezoidal", halfWidth: 1, topRatio: 1 }, (x) => (x + 1) / 2],
  [{ shape: "curvilinearTrapezoidal", halfWidth: 1, topRatio: 0.35 }, (x) => curvilinear(x, 0.35)],
  [{ shape: "curvilinearTrapezoidal", halfWidth: 1, topRatio: 0 }, (x) => curvilinear(x, 0)],
  [{ shape: "curvilinearTrapezoidal", halfWidth: 1, topRatio: 1 }, (x) => (x + 1) / 2],
  [{ shape: "arcsine", halfWidth: 1 }, (x) => 0.5 + Math.asin(x) / Math.PI],
  [{ shape: "scaledT", scale: 1, degreesOfFreedom: 1 }, (x) => 0.5 + Math.atan(x) / Math.PI],
  [{ shape: "scaledT", scale: 1, degreesOfFreedom: 2 }, (x) => 0.5 + x / (2 * Math.sqrt(2 + x * x))],
];

/** Integral of the trapezoid's density: height 1/(1 + top) on the top, falling to 0 at ±1. */
function trapezoid(x: number, top: number): number {
  const height = 1 / (1 + top);
  if (x > 0) return 1 - trapezoid(-x, top);
  if (x < -top) return (height * (x + 1) ** 2) / (2 * (1 - top));
  return (height * (1 - top)) / 2 + height * (x + top);
}

/** Integral of the published density (1/(2 (1 - top))) ln(1/max(|x|, top)) (JCGM 101:2008, 6.4.3.2, on half-width 1). */
function curvilinear(x: number, top: number): number {
  const size = Math.abs(x);
  if (x > 0) return 1 - curvilinear(-x, top);
  if (size === 0) return 0.5;
  if (size < top) return 0.5 - (size * Math.log(1 / top)) / (2 * (1 - top));
  return (1 - size + size * Math.log(size)) / (2 * (1 - top));
}

describe("quantileOf", () => {
  it("quantileOf(exponential, p) undoes its distribution function 1 - e^-(1+x) and keeps above -mean", () => {
    const distribution = { shape: "exponential", mean: 2 } as const;
    for (const p of [1e-12, 1e-6, 0.1, 0.5, 1 - Math.exp(-1), 0.9, 1 - 1e-9]) {
      const value = quantileOf(distribution, p);
      expect(value).toBeGreaterThanOrEqual(-2);
      expect(-Math.expm1(-(1 + value / 2))).toBeCloseTo(p, 12);
    }
    expect(halfWidthOf(distribution)).toBe(Number.POSITIVE_INFINITY);
  });

  it.each(closed)("quantileOf(%j, p) undoes its distribution function", (distribution, cumulative) => {
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 1 - 1e-6, noNaN: true }), (p) => {
        expect(cumulative(quantileOf(distribution, p))).toBeCloseTo(p, 10);
      }),
      { numRuns: 200 },
    );
  });

  it.each(closed)("quantileOf(%j, p) rises, is odd about one half, and keeps within the half-width", (distribution) => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 498 }), (thousandths) => {
        const p = thousandths / 1000;
        const value = quantileOf(distribution, p);
        expect(quantileOf(distribution, 1 - p)).toBeCloseTo(-value, 9);
        expect(quantileOf(distribution, p + 0.001)).toBeGreaterThan(value);
        expect(Math.abs(value)).toBeLessThanOrEqual(halfWidthOf(distribution));
      }),
      { numRuns: 100 },
    );
  });

  // Quantiles of the standard normal: tables, and scipy.stats.norm.ppf to 15 digits.
  it.each([
    [0.975, 1.959963984540054],
    [0.95, 1.6448536269514722],
    [0.5, 0],
    [1e-9, -5.9978070150076865],
    [0.99865, 2.9999769927034015],
  ])("quantileOf(normal, %d) is %d", (p, expected) => {
    expect(quantileOf({ shape: "normal", standardDeviation: 1 }, p)).toBeCloseTo(expected, 12);
    expect(quantileOf({ shape: "normal", standardDeviation: 0.004 }, p)).toBeCloseTo(0.004 * expected, 14);
  });

  it.each([0, 1, -0.1, 1.1, Number.NaN])("quantileOf(..., %d) refuses what is no probability inside (0, 1)", (p) => {
    expect(() => quantileOf({ shape: "rectangular", halfWidth: 1 }, p)).toThrow("probability: expected a number in (0, 1)");
  });
});
