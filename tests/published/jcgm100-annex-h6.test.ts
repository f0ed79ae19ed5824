import { expect, it } from "vitest";
import { budgetOf } from "../../lib/uncertainty/budget.ts";
import type { SourceDistribution } from "../../lib/uncertainty/sourceDistribution.ts";
import { certain, fromSource, sum } from "../../lib/uncertainty/uncertain.ts";
import { sourceOf } from "../properties/expressions.ts";

// JCGM 100:2008, annex H.6: hardness of a block in Rockwell scale units of 0.002 mm, h = 100 - d - Δc - Δb - ΔS (equation H.37, table H.10).
// Values from memory, recomputed: the standard uncertainties of the parts come to the printed result.
it("gum-h6-hardness: 64.0 Rockwell scale units with u = 0.55, which are 0.1280 mm with 0.0011 mm (H.6.4)", () => {
  const input = (id: string, distribution: SourceDistribution, estimate = 0) => fromSource({ ...sourceOf(id, estimate), distribution });
  const normal = (standardDeviation: number) => ({ shape: "normal", standardDeviation }) as const;
  const hardness = certain(100).minus(
    sum([
      // The mean of five indentations, each of which scatters by 0.45, and the step of the display.
      input("mean of five indentations", normal(0.45 / Math.sqrt(5)), 36),
      input("step of the display", { shape: "rectangular", halfWidth: 0.1 / 2 }),
      // The machine against the standard one: the averages of the calibrations; the range of the block's calibrations, 0.06, as a triangle.
      input("correction of the calibration machine", normal(0.1)),
      input("blocks, range", { shape: "triangular", halfWidth: 0.06 / 2 }),
      input("standard machine against the definition", normal(0.5)),
    ]),
  );
  const { value, standardUncertainty } = budgetOf(hardness);
  expect(value).toBeCloseTo(64.0, 12);
  expect(Math.abs(standardUncertainty - 0.55)).toBeLessThanOrEqual(0.005);
  const lengths = budgetOf(hardness.times(0.002));
  expect(lengths.value).toBeCloseTo(0.128, 12);
  expect(Math.abs(lengths.standardUncertainty - 0.0011)).toBeLessThanOrEqual(0.00005);
});
