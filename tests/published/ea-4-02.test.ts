import { describe, expect, it } from "vitest";
import { type Budget, budgetOf } from "../../lib/uncertainty/budget.ts";
import { linearDistribution } from "../../lib/uncertainty/linearDistribution.ts";
import type { SourceDistribution } from "../../lib/uncertainty/sourceDistribution.ts";
import { fromSource, sum } from "../../lib/uncertainty/uncertain.ts";
import { sourceOf } from "../properties/expressions.ts";

// EA-4/02 M:2013, supplements S2, S3, S4, S9, S10 and S11; the same numbers as in the edition of 1999 (values from memory, recomputed).
const input = (id: string, estimate: number, distribution: SourceDistribution) => fromSource({ ...sourceOf(id, estimate), distribution });
const normal = (standardDeviation: number) => ({ shape: "normal", standardDeviation }) as const;
const even = (halfWidth: number) => ({ shape: "rectangular", halfWidth }) as const;
const amount = ({ contributions }: Budget, id: string) => Math.abs(contributions.find(({ source }) => source.id === id)?.amount ?? 0);

describe("EA-4/02", () => {
  it("ea402-s2-mass: 10 000.025 g with u = 29.3 mg and U = 59 mg (S2, in milligrams)", () => {
    const budget = budgetOf(
      sum([
        input("standard", 10_000_005, normal(45 / 2)),
        input("drift", 0, even(15)),
        input("difference", 20, normal(25 / Math.sqrt(3))),
        input("eccentricity", 0, even(10)),
        input("buoyancy", 0, even(10)),
      ]),
    );
    expect(budget.value).toBeCloseTo(10_000_025, 9);
    expect(Math.abs(budget.standardUncertainty - 29.3)).toBeLessThanOrEqual(0.06);
    expect(Math.abs(2 * budget.standardUncertainty - 59.0)).toBeLessThanOrEqual(0.5);
    expect(Math.abs(amount(budget, "difference") - 14.4)).toBeLessThanOrEqual(0.05);
    expect(Math.abs(amount(budget, "drift") - 8.66)).toBeLessThanOrEqual(0.005);
    expect(Math.abs(amount(budget, "eccentricity") - 5.77)).toBeLessThanOrEqual(0.005);
  });

  it("ea402-s3-resistor: 10 000.178 Ω with u = 8.33 mΩ and U = 17 mΩ (S3)", () => {
    const sources = [
      input("standard", 10_000.053, normal(0.005 / 2)),
      input("drift", 0.02, even(0.01)),
      input("temperature of the standard", 0, even(0.00275)),
    ];
    const corrected = sum(sources)
      .times(input("parasitic", 1, { shape: "triangular", halfWidth: 1e-6 }))
      .times(input("ratio", 1.0000105, normal(0.07e-6)));
    const budget = budgetOf(corrected.minus(input("temperature of the unknown", 0, even(0.0055))));
    expect(Math.abs(budget.value - 10_000.178)).toBeLessThanOrEqual(0.0005);
    expect(Math.abs(1000 * budget.standardUncertainty - 8.33)).toBeLessThanOrEqual(0.005);
    expect(Math.abs(2000 * budget.standardUncertainty - 17)).toBeLessThanOrEqual(0.5);
    for (const [id, printed] of [
      ["standard", 2.5],
      ["drift", 5.8],
      ["temperature of the standard", 1.6],
      ["temperature of the unknown", 3.2],
      ["parasitic", 4.1],
      ["ratio", 0.7],
    ] as const)
      expect(Math.abs(1000 * amount(budget, id) - printed)).toBeLessThanOrEqual(0.05);
  });

  it("ea402-s4-gaugeblock: 49.999926 mm with u = 36.4 nm and U = 73 nm (S4, in nanometres)", () => {
    const nominal = 50e6;
    const budget = budgetOf(
      sum([
        input("standard", 50_000_020, normal(15)),
        input("drift", 0, even(30)),
        input("difference", -94, normal(12 / Math.sqrt(5))),
        input("comparator", 0, even(32)),
        input("temperature difference", 0, even(0.05)).times(-nominal * 11.5e-6),
        // The supplement gives the product of the two differences the standard uncertainty 0.236e-6 in all: 11.8 nm.
        input("coefficient times temperature", 0, normal(0.236e-6)).times(-nominal),
        input("variation", 0, even(6.7)),
      ]),
    );
    expect(Math.abs(budget.value - 49_999_926)).toBeLessThanOrEqual(0.5);
    expect(Math.abs(budget.standardUncertainty - 36.4)).toBeLessThanOrEqual(0.06);
    expect(Math.abs(2 * budget.standardUncertainty - 73.0)).toBeLessThanOrEqual(0.5);
    for (const [id, expected, tolerance] of [
      ["drift", 17.3, 0.05],
      ["difference", 5.37, 0.005],
      ["comparator", 18.5, 0.05],
      ["temperature difference", 16.6, 0.06],
      ["coefficient times temperature", 11.8, 0.05],
      ["variation", 3.87, 0.005],
    ] as const) {
      expect(Math.abs(amount(budget, id) - expected)).toBeLessThanOrEqual(tolerance);
    }
  });

  // One rectangle dominates, the step of the display: k = 1.65.
  it("ea402-s9-multimeter: 0.10 V with u = 0.030 V; the dominant rectangle has k = 1.65 and U = 0.05 V (S9)", () => {
    const budget = budgetOf(
      sum([
        input("indication", 100.1, even(0)),
        input("source", -100, normal(0.002 / 2)),
        input("resolution", 0, even(0.05)),
        input("calibrator", 0, even(0.011)),
      ]),
    );
    expect(budget.value).toBeCloseTo(0.1, 9);
    expect(Math.abs(budget.standardUncertainty - 0.03)).toBeLessThanOrEqual(0.0005);
    expect(Math.abs(amount(budget, "calibrator") - 0.0064)).toBeLessThanOrEqual(0.00005);
    const all = linearDistribution(
      0,
      budget.contributions.map(({ sensitivity, source }) => ({ coefficient: sensitivity, distribution: source.distribution })),
    );
    // The supplement takes the rectangle for all of it; what else there is adds a little to its end.
    const dominant = linearDistribution(0, [{ coefficient: 1, distribution: even(0.05) }]);
    const k = dominant.interval(0.95, "symmetric")[1] / dominant.standardDeviation;
    expect(Math.abs(k - 1.65)).toBeLessThanOrEqual(0.005);
    expect(Math.abs(all.interval(0.95, "symmetric")[1] - 0.05)).toBeLessThanOrEqual(0.005);
  });

  it("ea402-s11-block-calibrator: 180.1 °C with u = 0.164 K and U = 0.3 K by two dominant rectangles (S11)", () => {
    const budget = budgetOf(
      sum([
        input("reading", 180.1, normal(0.03 / 2)),
        input("temperature of the reference", 0, normal(0.01)),
        input("drift", 0, even(0.04)),
        input("resolution", 0, even(0.05)),
        input("radial", 0, even(0.1)),
        input("axial", 0, even(0.25)),
        input("hysteresis", 0, even(0.05)),
        input("time", 0, even(0.03)),
      ]),
    );
    expect(budget.value).toBeCloseTo(180.1, 9);
    expect(Math.abs(budget.standardUncertainty - 0.164)).toBeLessThanOrEqual(0.0005);
    const all = linearDistribution(
      0,
      budget.contributions.map(({ sensitivity, source }) => ({ coefficient: sensitivity, distribution: source.distribution })),
    );
    expect(Math.abs(all.interval(0.95, "symmetric")[1] - 0.3)).toBeLessThanOrEqual(0.05);
  });

  // The two dominant rectangles of 25 and 50 µm make a trapezoid with beta = 1/3: k = 1.83, U = 0.06 mm.
  it("ea402-s10-caliper: 0.10 mm with u = 33 µm; two dominant rectangles have k = 1.83 and U = 0.06 mm (S10, in micrometres)", () => {
    const budget = budgetOf(
      sum([
        input("reading", 150_100, even(0)),
        input("block", -150_000, even(0.8)),
        input("temperature difference", 0, even(2)).times(1.7),
        input("resolution", 0, even(25)),
        input("mechanical", 0, even(50)),
      ]),
    );
    expect(budget.value).toBeCloseTo(100, 9);
    expect(Math.abs(budget.standardUncertainty - 33)).toBeLessThanOrEqual(0.7);
    const dominant = linearDistribution(0, [
      { coefficient: 1, distribution: even(25) },
      { coefficient: 1, distribution: even(50) },
    ]);
    const k = dominant.interval(0.95, "symmetric")[1] / dominant.standardDeviation;
    expect(Math.abs(k - 1.83)).toBeLessThanOrEqual(0.0065);
    expect(Math.abs((k * budget.standardUncertainty) / 1000 - 0.06)).toBeLessThanOrEqual(0.005);
    // All of them together, exactly: the small ones change the factor little.
    const all = linearDistribution(
      0,
      budget.contributions.map(({ sensitivity, source }) => ({ coefficient: sensitivity, distribution: source.distribution })),
    );
    expect(Math.abs(all.interval(0.95, "symmetric")[1] / all.standardDeviation - k)).toBeLessThanOrEqual(0.01);
  });
});
