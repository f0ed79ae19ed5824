import { describe, expect, it } from "vitest";
import { quantileOf } from "../../lib/uncertainty/quantileOf.ts";
import { halfWidthOf, lowerReachOf, standardUncertaintyOf, upperReachOf } from "../../lib/uncertainty/sourceDistribution.ts";
import { betweenInexactLimits, betweenLimits, nonNegative } from "../../lib/uncertainty/statedLimits.ts";

describe("betweenLimits", () => {
  it("betweenLimits(10, 1, 3) has its best estimate in the middle of 9 and 13, and ends there", () => {
    const { estimate, distribution } = betweenLimits(10, 1, 3);
    expect(estimate).toBe(11);
    expect([estimate - lowerReachOf(distribution), estimate + upperReachOf(distribution)]).toEqual([9, 13]);
  });

  it("betweenLimits(5, 0, 0) is exact", () => {
    expect(betweenLimits(5, 0, 0)).toEqual({ estimate: 5, distribution: { shape: "rectangular", halfWidth: 0 } });
  });

  it.each([
    [Number.NaN, 1, 1, "nominal: expected finite"],
    [0, -1, 1, "below: expected finite and >= 0, got -1"],
    [0, 1, Number.POSITIVE_INFINITY, "above: expected finite and >= 0, got Infinity"],
  ])("betweenLimits(%d, %d, %d) refuses", (nominal, below, above, message) => {
    expect(() => betweenLimits(nominal, below, above)).toThrow(message);
  });
});

describe("betweenInexactLimits", () => {
  it("betweenInexactLimits(2, 0.5, 0) is a rectangle, in its spread and its quantiles", () => {
    const { estimate, distribution } = betweenInexactLimits(2, 0.5, 0);
    expect(estimate).toBe(2);
    expect(standardUncertaintyOf(distribution)).toBeCloseTo(0.5 / Math.sqrt(3), 15);
    for (const p of [0.01, 0.3, 0.5, 0.9]) expect(quantileOf(distribution, p)).toBeCloseTo(0.5 * (2 * p - 1), 14);
  });

  it("betweenInexactLimits(0, 0, 0) is exact", () => {
    expect(standardUncertaintyOf(betweenInexactLimits(0, 0, 0).distribution)).toBe(0);
  });

  it("betweenInexactLimits(0, 1, 0.2) reaches 1.2", () => {
    expect(halfWidthOf(betweenInexactLimits(0, 1, 0.2).distribution)).toBe(1.2);
  });

  it.each([-0.1, 1.1, Number.NaN])("betweenInexactLimits(0, 1, %d) refuses", (inexactness) => {
    expect(() => betweenInexactLimits(0, 1, inexactness)).toThrow("inexactness: expected 0 to the half-width 1");
  });
});

describe("nonNegative", () => {
  it("nonNegative(2.5) never lies below 0 and has no end above", () => {
    const { estimate, distribution } = nonNegative(2.5);
    expect(estimate - lowerReachOf(distribution)).toBe(0);
    expect(upperReachOf(distribution)).toBe(Number.POSITIVE_INFINITY);
    expect(estimate + quantileOf(distribution, 1e-9)).toBeGreaterThan(0);
    // Median of an exponential: ln 2 times its mean.
    expect(estimate + quantileOf(distribution, 0.5)).toBeCloseTo(2.5 * Math.LN2, 14);
  });

  it.each([-1, Number.NaN, Number.POSITIVE_INFINITY])("nonNegative(%d) refuses", (expectation) => {
    expect(() => nonNegative(expectation)).toThrow("expectation: expected finite and >= 0");
  });
});
