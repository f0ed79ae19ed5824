import { expect, it } from "vitest";
import { standardUncertaintyOf } from "../../lib/uncertainty/sourceDistribution.ts";

// JCGM 100:2008, F.2.2.2: indications that differ by hysteresis δx have u = 0.29 δx (value from memory, recomputed).
it("gum-F.2.2.2-hysteresis: standardUncertaintyOf(rectangular over δx) is 0.29 δx", () => {
  expect(Math.abs(standardUncertaintyOf({ shape: "rectangular", halfWidth: 0.5 }) - 0.29)).toBeLessThanOrEqual(0.005);
});

// JCGM 100:2008, F.2.4.5: a correction spread evenly over -0.02 to 0.06 has the mean 0.02 and the variance 0.000 533 (values chosen, formula
// published: a sanity check).
it("gum-F.2.4.5-range-correction: a rectangular correction over 0.08 has the variance 0.000533333", () => {
  expect(Math.abs(standardUncertaintyOf({ shape: "rectangular", halfWidth: 0.04 }) ** 2 - 0.000533333333)).toBeLessThanOrEqual(1e-9);
});
