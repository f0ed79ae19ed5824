import { describe, expect, it } from "vitest";
import { standardUncertaintyOf } from "../../lib/uncertainty/sourceDistribution.ts";

// JCGM 101:2008, 6.4: the formulas of the variances are published, the numbers follow from them: sanity checks.
describe("JCGM 101, 6.4", () => {
  it("s1-6.4-rect: R(2, 5) has the variance 0.75", () => {
    expect(standardUncertaintyOf({ shape: "rectangular", halfWidth: 1.5 }) ** 2).toBeCloseTo(0.75, 9);
  });

  it("s1-6.4.4-trap: Trap(0, 6, 0.5) has u = 1.369306393763", () => {
    expect(standardUncertaintyOf({ shape: "trapezoidal", halfWidth: 3, topRatio: 0.5 })).toBeCloseTo(1.369306393763, 9);
  });

  it("s1-6.4.5-tri: T(-1, 1) has the variance 1/6", () => {
    expect(standardUncertaintyOf({ shape: "triangular", halfWidth: 1 }) ** 2).toBeCloseTo(0.166666666667, 9);
  });
});
