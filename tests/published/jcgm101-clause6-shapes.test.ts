import { describe, expect, it } from "vitest";
import { newDocument } from "../../lib/document/newDocument.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { budgetOf } from "../../lib/uncertainty/budget.ts";
import { linearDistribution } from "../../lib/uncertainty/linearDistribution.ts";
import { quantileOf } from "../../lib/uncertainty/quantileOf.ts";
import { standardUncertaintyOf } from "../../lib/uncertainty/sourceDistribution.ts";
import { gaussLegendre } from "../../lib/uncertainty/special/gaussLegendre.ts";
import { betweenInexactLimits, nonNegative } from "../../lib/uncertainty/statedLimits.ts";
import { cell } from "../ledger/blocks.ts";

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

  it("s1-6.4.3-ctrap: CTrap(9.5, 10.5, 0.5) has the expectation 10 and the variance 0.111111111111", () => {
    const { estimate, distribution } = betweenInexactLimits(10, 0.5, 0.5);
    expect(estimate).toBe(10);
    expect(Math.abs(standardUncertaintyOf(distribution) ** 2 - 0.111111111111)).toBeLessThanOrEqual(1e-6);
    // The formula of 6.4.3, (b - a)²/12 + d²/9, also where the limits are better known.
    for (const d of [0, 0.1, 0.33])
      expect(standardUncertaintyOf(betweenInexactLimits(10, 0.5, d).distribution) ** 2).toBeCloseTo(1 / 12 + d ** 2 / 9, 14);
  });

  // 6.4.3.4 draws a limit a - d + 2 d r₁ first and then a value between it and its mirror image.
  it("s1-6.4.3-ctrap: the quantiles have that variance", () => {
    const { distribution } = betweenInexactLimits(10, 0.5, 0.2);
    const { nodes, weights } = gaussLegendre(200);
    const variance = nodes.reduce((sum, node, k) => sum + ((weights[k] as number) / 2) * quantileOf(distribution, (1 + node) / 2) ** 2, 0);
    expect(variance).toBeCloseTo(1 / 12 + 0.04 / 9, 6);
  });

  it("s1-6.4.9-t: t with 3, 5 and 18 degrees of freedom has the scale as its GUM uncertainty, and √(ν/(ν-2)) times that as its own", () => {
    const published = [1.7320508, 1.2909944, 1.0606602];
    for (const [k, degreesOfFreedom] of [3, 5, 18].entries()) {
      const distribution = { shape: "scaledT", scale: 1, degreesOfFreedom } as const;
      expect(standardUncertaintyOf(distribution)).toBe(1);
      const { nodes, weights } = gaussLegendre(400);
      const halfOfVariance = nodes.reduce((sum, node, k) => {
        const v = (1 + node) / 2;
        // Probability ½ v¹² near 0: the integrand stays bounded even for 3 degrees of freedom.
        return sum + ((weights[k] as number) / 2) * 6 * v ** 11 * quantileOf(distribution, 0.5 * v ** 12) ** 2;
      }, 0);
      expect(Math.abs(Math.sqrt(2 * halfOfVariance) - (published[k] as number))).toBeLessThanOrEqual(1e-6);
    }
  });

  it("s1-6.4.10-exp: the exponential of expectation 2.5 has u = 2.5", () => {
    const { estimate, distribution } = nonNegative(2.5);
    expect(estimate).toBe(2.5);
    expect(standardUncertaintyOf(distribution)).toBe(2.5);
    // The distribution function 1 - e^(-ξ/x) of 6.4.10.
    const whole = linearDistribution(estimate, [{ coefficient: 1, distribution }]);
    for (const value of [0.1, 1, 2.5, 7]) expect(whole.cumulative(value)).toBeCloseTo(1 - Math.exp(-value / 2.5), 12);
  });

  // The same about another limit, as it is typed into a cell: x - a is the non-negative quantity. Quantiles and the chance above 0.05 mm by scipy 1.17:
  // expon(loc = 0.005, scale = 0.015).
  it("s1-6.4.10-exp: a cell that is 0.02 mm and not below 0.005 mm has u = 0.015 mm, and the quantiles of that exponential", () => {
    const { own, problems } = evaluateSetup({ ...newDocument(), ledger: [cell("play", "0.02 mm not below 0.005 mm")] });
    expect(problems.filter(({ at }) => at.startsWith("ledger"))).toEqual([]);
    const found = own.get("play");
    if (!found?.ok || found.value.kind !== "quantity") throw new Error("no value");
    const { value, standardUncertainty, contributions } = budgetOf(found.value.value);
    expect(value).toBe(0.02);
    expect(standardUncertainty).toBeCloseTo(0.015, 15);
    const whole = linearDistribution(
      value,
      contributions.map(({ sensitivity, source }) => ({ coefficient: sensitivity, distribution: source.distribution })),
    );
    for (const [probability, quantile] of [
      [0.025, 0.00537977],
      [0.5, 0.01539721],
      [0.975, 0.06033319],
    ] as const)
      expect(whole.quantile(probability)).toBeCloseTo(quantile, 8);
    expect(1 - whole.cumulative(0.05)).toBeCloseTo(0.049787068367863924, 10);
    expect(whole.cumulative(0.004)).toBeCloseTo(0, 12);
  });
});
