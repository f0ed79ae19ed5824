import { describe, expect, it } from "vitest";
import { budgetOf } from "../../lib/uncertainty/budget.ts";
import { farthestCritical } from "../../lib/uncertainty/farthestReading.ts";
import { harmonicAdjustment } from "../../lib/uncertainty/harmonicAdjustment.ts";
import { successiveDifferences } from "../../lib/uncertainty/successiveDifferences.ts";
import { certain, fromSource } from "../../lib/uncertainty/uncertain.ts";
import { sourceOf } from "../properties/expressions.ts";

// F. E. Grubbs and G. Beck, Technometrics 14 (1972) 847: one-sided critical values of 5 % and 2.5 % (seen in a page that quotes them).
describe("Grubbs and Beck 1972", () => {
  it.each([
    [3, 1.15, 1.15],
    [4, 1.46, 1.48],
    // Printed 1.71 for 2.5 %; recomputed 1.715.
    [5, 1.67, 1.71],
    [6, 1.82, 1.89],
    [7, 1.94, 2.02],
    [8, 2.03, 2.13],
    [9, 2.11, 2.21],
    [10, 2.18, 2.29],
    [15, 2.41, 2.55],
    [20, 2.56, 2.71],
  ])("grubbs-table: farthestCritical(%d) is %d at 5 % and %d at 2.5 %", (count, five, half) => {
    expect(Math.abs(farthestCritical(count, 0.05) - five)).toBeLessThanOrEqual(0.011);
    expect(Math.abs(farthestCritical(count, 0.025) - half)).toBeLessThanOrEqual(0.011);
  });
});

// F. E. Grubbs, An optimum procedure for setting machines or adjusting processes, Industrial Quality Control, July 1954 (closed form; the
// numbers of the example follow from it).
describe("Grubbs 1954, adjustment of a setting", () => {
  it("grubbs-setup-1n: an offset of 10 and five pieces' errors give these deviations, adjustments and offsets", () => {
    const errors = [0.8, -1.2, 0.5, 1.5, -0.6];
    const expected = [
      [10.8, -10.8, -0.8],
      [-2.0, 1.0, 0.2],
      [0.7, -0.233333, -0.033333],
      [1.466667, -0.366667, -0.4],
      [-1.0, 0.2, -0.2],
    ];
    let offset = 10;
    for (const [k, error] of errors.entries()) {
      const observed = offset + error;
      const adjustment = harmonicAdjustment(observed, k + 1);
      offset += adjustment;
      for (const [i, value] of [observed, adjustment, offset].entries())
        expect(Math.abs(value - (expected[k]?.[i] ?? Number.NaN))).toBeLessThanOrEqual(1e-6);
    }
  });

  it("grubbs-variance: the setting after n pieces has the variance σ²/n, whatever it was at first", () => {
    let offset = certain(10);
    for (const [k, variance] of [1, 0.5, 0.333333, 0.25, 0.2].entries()) {
      const observed = offset.plus(fromSource(sourceOf(`piece ${k}`, 0, 1)));
      // The rule is a multiple of the deviation.
      offset = offset.plus(observed.times(harmonicAdjustment(1, k + 1)));
      expect(Math.abs(budgetOf(offset).standardUncertainty ** 2 - variance)).toBeLessThanOrEqual(1e-6);
      expect(Math.abs(offset.value)).toBeLessThanOrEqual(1e-12);
    }
  });
});

// J. von Neumann, Ann. Math. Stat. 12 (1941) 367 (closed form): four differences of 1 by the sum of squares 10.
it("von-neumann-ratio: successiveDifferences([1, 2, 3, 4, 5]) is 0.4, where independent readings have about 2", () => {
  const found = successiveDifferences([1, 2, 3, 4, 5]);
  expect(Math.abs((found?.ratio ?? 0) - 0.4)).toBeLessThanOrEqual(1e-12);
  expect(found?.standardDeviation).toBeCloseTo(Math.sqrt(12 / 24), 14);
});
