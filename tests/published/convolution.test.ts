import { describe, expect, it } from "vitest";
import { linearDistribution } from "../../lib/uncertainty/linearDistribution.ts";
import type { SourceDistribution } from "../../lib/uncertainty/sourceDistribution.ts";

const sumOf = (...sources: SourceDistribution[]) =>
  linearDistribution(
    0,
    sources.map((distribution) => ({ coefficient: 1, distribution })),
  );
const rectangle = (halfWidth: number): SourceDistribution => ({ shape: "rectangular", halfWidth });

/** Half the width of the probabilistically symmetric interval over the standard uncertainty. */
function factor(sources: readonly SourceDistribution[], probability: number): number {
  const sum = sumOf(...sources);
  const [lower, upper] = sum.interval(probability, "symmetric");
  return (upper - lower) / 2 / sum.standardDeviation;
}

// Two equal independent rectangles of half-width a make a triangle of half-width 2a (JCGM 100:2008, 4.3.9; JCGM 101:2008, 6.4.4). The numbers
// follow from the published formula (closed form, recomputed).
describe("two equal rectangles", () => {
  it("conv-two-rect: linearDistribution has u = 0.816497", () => {
    expect(Math.abs(sumOf(rectangle(1), rectangle(1)).standardDeviation - 0.816497)).toBeLessThanOrEqual(1e-6);
  });
  it.each([
    [0.95, 1.5528, 1.902],
    [0.9545, 1.5734, 1.927],
    [0.99, 1.8, 2.205],
  ])("conv-two-rect: interval(%d) has half-width %d and factor %d", (p, half, k) => {
    expect(Math.abs(sumOf(rectangle(1), rectangle(1)).interval(p, "symmetric")[1] - half)).toBeLessThanOrEqual(6e-5);
    expect(Math.abs(factor([rectangle(1), rectangle(1)], p) - k)).toBeLessThanOrEqual(0.0006);
  });
  it("conv-two-rect: every chance is the triangle's", () => {
    const triangle = sumOf({ shape: "triangular", halfWidth: 2 });
    for (const y of [-1.9, -1, -0.2, 0.5, 1.7])
      expect(sumOf(rectangle(1), rectangle(1)).cumulative(y)).toBeCloseTo(triangle.cumulative(y), 14);
  });
});

// Two unequal rectangles make a trapezoid of top ratio β: k = (1 - √((1 - p)(1 - β²))) / √((1 + β²)/6) (EA-4/02, S10.13, which prints 1.83 for
// β = 0.33; the others follow from the formula, recomputed).
describe("two unequal rectangles", () => {
  it.each([
    [0, 1.902],
    [0.33, 1.835],
    [0.5, 1.767],
    [0.8, 1.656],
  ])("conv-trapezoid-k: top ratio %d has the factor %d at 95 %%", (beta, k) => {
    expect(Math.abs(factor([rectangle(1 + beta), rectangle(1 - beta)], 0.95) - k)).toBeLessThanOrEqual(0.0005);
    expect(Math.abs(factor([{ shape: "trapezoidal", halfWidth: 2, topRatio: beta }], 0.95) - k)).toBeLessThanOrEqual(0.0005);
  });
});

// n equal rectangles (Irwin and Hall), factor at 95 % (JCGM 101:2008, 9.2.3 gives 3.88/2 for n = 4; the others from the closed form, recomputed).
describe("n equal rectangles", () => {
  it.each([
    [1, 1.645],
    [2, 1.902],
    [3, 1.937],
    [4, 1.94],
  ])("conv-irwin-hall: %d have the factor %d", (n, k) => {
    expect(
      Math.abs(
        factor(
          Array.from({ length: n }, () => rectangle(1)),
          0.95,
        ) - k,
      ),
    ).toBeLessThanOrEqual(0.0016);
  });
  it("conv-irwin-hall: the 97.5 % quantile of four with unit variance is 2√3 (2 - (3/5)^(1/4)) (JCGM 101, 9.2.3.3, note)", () => {
    const four = sumOf(...Array.from({ length: 4 }, () => rectangle(Math.sqrt(3))));
    expect(four.quantile(0.975)).toBeCloseTo(2 * Math.sqrt(3) * (2 - 0.6 ** 0.25), 12);
  });
});

// Factors at 95 % of single shapes (closed forms, recomputed).
describe("single shapes", () => {
  it.each<[SourceDistribution, number]>([
    [rectangle(3), 1.645],
    [{ shape: "triangular", halfWidth: 3 }, 1.902],
    [{ shape: "arcsine", halfWidth: 3 }, 1.41],
    [{ shape: "normal", standardDeviation: 3 }, 1.96],
  ])("k95-shapes: %j has the factor %d", (source, k) => {
    expect(Math.abs(factor([source], 0.95) - k)).toBeLessThanOrEqual(0.00055);
  });
});
