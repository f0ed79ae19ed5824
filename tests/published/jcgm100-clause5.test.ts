import { describe, expect, it } from "vitest";
import { budgetOf } from "../../lib/uncertainty/budget.ts";
import { certain, fromSource, sum, type Uncertain } from "../../lib/uncertainty/uncertain.ts";
import { sourceOf } from "../properties/expressions.ts";

const input = (id: string, estimate: number, u: number): Uncertain => fromSource(sourceOf(id, estimate, u));

// JCGM 100:2008, clause 5.
describe("JCGM 100, clause 5", () => {
  // 5.1.3: P = V²/(R0 (1 + alpha (t - t0))). The formulas of the sensitivities are published, the numbers follow from them: a sanity check.
  it("gum-5.1.3-power: sensitivities of P = V²/(R0 (1 + alpha (t - t0))) are 2P/V, -P/R0, ...", () => {
    const [V, R0, alpha, t] = [input("V", 10, 1), input("R0", 50, 1), input("alpha", 0.004, 1), input("t", 35, 1)] as const;
    const { value, contributions } = budgetOf(V.power(2).over(R0.times(certain(1).plus(alpha.times(t.minus(20))))));
    expect(Math.abs(value - 1.886792453)).toBeLessThanOrEqual(1e-8);
    for (const [id, expected, tolerance] of [
      ["V", 0.3773584906, 1e-7],
      ["R0", -0.03773584906, 1e-8],
      ["alpha", -26.6998932, 1e-5],
      ["t", -0.00711997152, 1e-8],
    ] as const) {
      const sensitivity = contributions.find(({ source }) => source.id === id)?.sensitivity ?? 0;
      expect(Math.abs(sensitivity - expected)).toBeLessThanOrEqual(tolerance);
    }
  });

  // 5.1.5: V = V̄ + ΔV with u(V̄) = 12 µV and ΔV within ± 15 µV, u(ΔV) = 8.7 µV (4.3.7): u² = 219e-12 V², u = 15 µV, relatively 16e-6 (value from memory, recomputed).
  it("gum-5.1.5-voltage: u is 15 µV, relatively 16e-6", () => {
    const correction = fromSource({ ...sourceOf("correction", 0), distribution: { shape: "rectangular", halfWidth: 15 } });
    const { standardUncertainty } = budgetOf(input("mean", 928571, 12).plus(correction));
    expect(Math.abs(standardUncertainty ** 2 - 219)).toBeLessThanOrEqual(0.5);
    expect(Math.abs(standardUncertainty - 15)).toBeLessThanOrEqual(0.5);
    expect(Math.abs(standardUncertainty / 928571 - 1.6e-5)).toBeLessThanOrEqual(5e-7);
  });

  // 5.1.6, equation (12): relative uncertainties add with their exponents. Formula published, numbers follow: a sanity check.
  it("gum-5.1.6-power-law: X1² X2⁻¹ X3^½ with 1 %, 2 %, 4 % has 3.4641 %", () => {
    const X = [3, 5, 7].map((estimate, i) => input(`X${i}`, estimate, estimate * ([0.01, 0.02, 0.04][i] as number))) as [
      Uncertain,
      Uncertain,
      Uncertain,
    ];
    const { value, standardUncertainty } = budgetOf(X[0].power(2).times(X[1].power(-1)).times(X[2].power(0.5)));
    expect(Math.abs(standardUncertainty / value - 0.034641)).toBeLessThanOrEqual(1e-6);
  });

  // 5.2.2: ten resistors of 1000 Ω, each 100 mΩ, calibrated against one standard: 1 Ω in series, against 0.32 Ω if they were independent
  // (value from memory, recomputed).
  it("gum-5.2.2-ten-resistors: one shared source gives 1 Ω, ten of their own 0.32 Ω", () => {
    const shared = input("standard", 1000, 0.1);
    const correlated = budgetOf(sum(Array.from({ length: 10 }, () => shared)));
    expect(Math.abs(correlated.value - 10000)).toBeLessThanOrEqual(0.5);
    expect(correlated.standardUncertainty).toBeCloseTo(1.0, 9);
    const independent = budgetOf(sum(Array.from({ length: 10 }, (_, i) => input(`R${i}`, 1000, 0.1))));
    expect(Math.abs(independent.standardUncertainty - 0.32)).toBeLessThanOrEqual(0.005);
  });
});
