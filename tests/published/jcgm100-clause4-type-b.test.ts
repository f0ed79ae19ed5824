import { describe, expect, it } from "vitest";
import { budgetOf } from "../../lib/uncertainty/budget.ts";
import { coverageFactor } from "../../lib/uncertainty/coverage.ts";
import { quantileOf } from "../../lib/uncertainty/quantileOf.ts";
import { relativeStandardUncertainty } from "../../lib/uncertainty/relativeStandardUncertainty.ts";
import { standardUncertaintyOf } from "../../lib/uncertainty/sourceDistribution.ts";
import { betweenLimits } from "../../lib/uncertainty/statedLimits.ts";
import { fromSource } from "../../lib/uncertainty/uncertain.ts";
import { sourceOf } from "../properties/expressions.ts";

// JCGM 100:2008, clause 4.3 and 4.4 (values from memory, recomputed).
describe("JCGM 100, Type B evaluations", () => {
  const normal = { shape: "normal", standardDeviation: 1 } as const;

  // 4.3.3: a mass standard of 1000.000 325 g, certified with 240 µg "at the three standard deviation level": u = 80 µg, u/m = 80e-9,
  // u² = 6.4e-9 g².
  it("gum-4.3.3-mass: three standard deviations of 240 µg are u = 80 µg, 8e-8 of the mass", () => {
    const mass = fromSource({ ...sourceOf("mass standard", 1000.000325, 240e-6 / 3), evidence: { kind: "certificate", note: "k = 3" } });
    const { value, standardUncertainty } = budgetOf(mass);
    expect(Math.abs(1e6 * standardUncertainty - 80)).toBeLessThanOrEqual(0.5);
    expect(Math.abs(standardUncertainty / value - 8e-8)).toBeLessThanOrEqual(5e-10);
    expect(Math.abs(standardUncertainty ** 2 - 6.4e-9)).toBeLessThanOrEqual(5e-11);
  });

  // 4.3.4: a resistor of 10.000 742 Ω ± 129 µΩ "at a level of confidence of 99 percent": u = 129/2.58 = 50 µΩ, relatively 5.0e-6, u² = 2.5e-9 Ω².
  it("gum-4.3.4-resistor: 129 µΩ at 99 % of a normal are u = 50 µΩ, 5.0e-6 of the resistance", () => {
    const factor = coverageFactor(0.99, Number.POSITIVE_INFINITY);
    expect(Math.abs(factor - 2.58)).toBeLessThanOrEqual(0.005);
    const budget = budgetOf(fromSource(sourceOf("resistor", 10.000742, 129e-6 / factor)));
    expect(Math.abs(1e6 * budget.standardUncertainty - 50)).toBeLessThanOrEqual(0.5);
    expect(Math.abs((relativeStandardUncertainty(budget) as number) - 5.0e-6)).toBeLessThanOrEqual(5e-8);
    expect(Math.abs(budget.standardUncertainty ** 2 - 2.5e-9)).toBeLessThanOrEqual(5e-11);
  });

  // 4.3.7, example 1: copper expands by 16.52e-6/°C, in error by no more than 0.40e-6: u² = 53.3e-15, u = 0.23e-6.
  it("gum-4.3.7-copper: limits of 0.40e-6 have u² = 53.3e-15 and u = 0.23e-6", () => {
    const u = standardUncertaintyOf({ shape: "rectangular", halfWidth: 0.4e-6 });
    expect(Math.abs(u ** 2 - 53.3e-15)).toBeLessThanOrEqual(5e-17);
    expect(Math.abs(u - 0.23e-6)).toBeLessThanOrEqual(5e-9);
  });

  // 4.3.5: a length lies in 10.07 to 10.15 mm with a chance of one half: u = 1.48 a = 0.06 mm, u² = 3.5e-3 mm².
  it("gum-4.3.5-machinist: 1 / quantileOf(normal, 0.75) is 1.48, and u is 0.06", () => {
    const factor = 1 / quantileOf(normal, 0.75);
    expect(Math.abs(factor - 1.48)).toBeLessThanOrEqual(0.005);
    expect(Math.abs(factor * 0.04 - 0.06)).toBeLessThanOrEqual(0.005);
    expect(Math.abs((factor * 0.04) ** 2 - 0.0035)).toBeLessThanOrEqual(5e-5);
  });

  // 4.3.6: two chances in three: u is about the half-width.
  it("gum-4.3.6-two-thirds: quantileOf(normal, 5/6) is about 1", () => {
    expect(Math.abs(quantileOf(normal, 5 / 6) - 1)).toBeLessThanOrEqual(0.05);
  });

  // 4.3.8: limits b₊ = 3 above and b₋ = 1 below: u² = (b₊ + b₋)²/12, about the middle of the limits.
  it("gum-4.3.8-asymmetric: betweenLimits(0, 1, 3) has u² = 1.3333333333 and the best estimate 1", () => {
    const { estimate, distribution } = betweenLimits(0, 1, 3);
    expect(Math.abs(standardUncertaintyOf(distribution) ** 2 - 1.3333333333)).toBeLessThanOrEqual(5.1e-11);
    expect(estimate).toBe(1);
  });

  // 4.3.7, example 2: a = 14e-6 · 0.928 571 V + 2e-6 · 1 V = 15 µV, rectangular: u² = 75 µV², u = 8.7 µV.
  it("gum-4.3.7-dvm: standardUncertaintyOf(rectangular, 15 µV) is 8.7 µV", () => {
    const halfWidth = 1e6 * (14e-6 * 0.928571 + 2e-6 * 1);
    expect(Math.abs(halfWidth - 15)).toBeLessThanOrEqual(0.5);
    const u = standardUncertaintyOf({ shape: "rectangular", halfWidth: 15 });
    expect(Math.abs(u ** 2 - 75)).toBeLessThanOrEqual(0.5);
    expect(Math.abs(u - 8.7)).toBeLessThanOrEqual(0.05);
  });

  // 4.3.8: limits 3 above and 1 below the estimate, nothing else known: u² = (b+ + b-)²/12 (closed form).
  it("gum-4.3.8-asymmetric: limits of +3 and -1 have u² = 16/12", () => {
    expect(standardUncertaintyOf({ shape: "rectangular", halfWidth: (3 + 1) / 2 }) ** 2).toBeCloseTo(1.3333333333, 10);
  });

  // 4.4.5: 96 to 104 °C: rectangular 2.3 °C, triangular 1.6 °C.
  it("gum-4.4.5-rect-tri: half-width 4 is 2.3 rectangular and 1.6 triangular", () => {
    expect(Math.abs(standardUncertaintyOf({ shape: "rectangular", halfWidth: 4 }) - 2.3)).toBeLessThanOrEqual(0.05);
    expect(Math.abs(standardUncertaintyOf({ shape: "triangular", halfWidth: 4 }) - 1.6)).toBeLessThanOrEqual(0.05);
  });
});
