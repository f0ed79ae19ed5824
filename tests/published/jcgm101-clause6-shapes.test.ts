import { describe, expect, it } from "vitest";
import { linearDistribution } from "../../lib/uncertainty/linearDistribution.ts";
import { type SourceDistribution, standardUncertaintyOf } from "../../lib/uncertainty/sourceDistribution.ts";

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

  // 4.3.9 of JCGM 100, and 6.4.4 here: the sum of two rectangles is a trapezoid or a triangle, whose interval is in closed form.
  const interval = (...shapes: SourceDistribution[]) =>
    linearDistribution(
      0,
      shapes.map((distribution) => ({ coefficient: 1, distribution })),
    );
  const even = (halfWidth: number): SourceDistribution => ({ shape: "rectangular", halfWidth });

  it.each([
    [0.95, 1.5528, 1.902],
    [0.9545, 1.5734, 1.927],
    [0.99, 1.8, 2.205],
  ])("conv-two-rect: two equal rectangles hold %d in ± %d, k = %d", (p, half, k) => {
    const sum = interval(even(1), even(1));
    expect(Math.abs(sum.standardDeviation - 0.816497)).toBeLessThanOrEqual(1e-6);
    expect(Math.abs(sum.interval(p, "symmetric")[1] - half)).toBeLessThanOrEqual(6e-5);
    expect(Math.abs(sum.interval(p, "shortest")[1] / sum.standardDeviation - k)).toBeLessThanOrEqual(0.0006);
  });

  it.each([
    [0, 1.902],
    [0.33, 1.835],
    [0.5, 1.767],
    [0.8, 1.656],
  ])("conv-trapezoid-k: a trapezoid with the top ratio %d has k95 = %d, as one source and as two rectangles", (topRatio, k) => {
    const trapezoid = interval({ shape: "trapezoidal", halfWidth: 1, topRatio });
    expect(Math.abs(trapezoid.interval(0.95, "symmetric")[1] / trapezoid.standardDeviation - k)).toBeLessThanOrEqual(0.0005);
    const sum = interval(even((1 + topRatio) / 2), even((1 - topRatio) / 2));
    expect(sum.interval(0.95, "symmetric")[1]).toBeCloseTo(trapezoid.interval(0.95, "symmetric")[1], 8);
  });

  it.each([
    [1, 1.645],
    [2, 1.902],
    [3, 1.937],
    [4, 1.94],
  ])("conv-irwin-hall: %d equal rectangles have k95 = %d", (count, k) => {
    const sum = interval(...Array.from({ length: count }, () => even(1)));
    expect(Math.abs(sum.interval(0.95, "symmetric")[1] / sum.standardDeviation - k)).toBeLessThanOrEqual(0.0016);
  });

  it.each([
    [even(1), 1.645],
    [{ shape: "triangular", halfWidth: 1 } as const, 1.902],
    [{ shape: "arcsine", halfWidth: 1 } as const, 1.41],
    [{ shape: "normal", standardDeviation: 1 } as const, 1.96],
  ])("k95-shapes: %j has k95 = %d", (shape, k) => {
    const alone = interval(shape);
    expect(Math.abs(alone.interval(0.95, "symmetric")[1] / alone.standardDeviation - k)).toBeLessThanOrEqual(0.00055);
  });
});
