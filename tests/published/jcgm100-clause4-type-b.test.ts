import { describe, expect, it } from "vitest";
import { quantileOf } from "../../lib/uncertainty/quantileOf.ts";
import { standardUncertaintyOf } from "../../lib/uncertainty/sourceDistribution.ts";

// JCGM 100:2008, clause 4.3 and 4.4 (values from memory, recomputed).
describe("JCGM 100, Type B evaluations", () => {
  const normal = { shape: "normal", standardDeviation: 1 } as const;

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

  // 4.3.7, example 2: a = 14e-6 · 0.928 571 V + 2e-6 · 1 V = 15 µV, rectangular: u² = 75 µV², u = 8.7 µV.
  it("gum-4.3.7-dvm: standardUncertaintyOf(rectangular, 15 µV) is 8.7 µV", () => {
    const halfWidth = 1e6 * (14e-6 * 0.928571 + 2e-6 * 1);
    expect(Math.abs(halfWidth - 15)).toBeLessThanOrEqual(0.5);
    const u = standardUncertaintyOf({ shape: "rectangular", halfWidth: 15 });
    expect(Math.abs(u ** 2 - 75)).toBeLessThanOrEqual(0.5);
    expect(Math.abs(u - 8.7)).toBeLessThanOrEqual(0.05);
  });

  // 4.4.5: 96 to 104 °C: rectangular 2.3 °C, triangular 1.6 °C.
  it("gum-4.4.5-rect-tri: half-width 4 is 2.3 rectangular and 1.6 triangular", () => {
    expect(Math.abs(standardUncertaintyOf({ shape: "rectangular", halfWidth: 4 }) - 2.3)).toBeLessThanOrEqual(0.05);
    expect(Math.abs(standardUncertaintyOf({ shape: "triangular", halfWidth: 4 }) - 1.6)).toBeLessThanOrEqual(0.05);
  });
});
