import { expect, it } from "vitest";
import { summariseRepeats } from "../../lib/uncertainty/repeats.ts";

// JCGM 100:2008, 4.2.2 and 4.2.3: s² = Σ(q − q̄)²/(n − 1) and s(q̄) = s/√n. For 1 to 5 s = 1.581 138 8 and s(q̄) = 0.707 106 8
// (closed form √2.5 and √0.5; value from memory, recomputed).
it("gum-4.2.3-mean: summariseRepeats([1, 2, 3, 4, 5]) has s and s/√n of JCGM 100, 4.2", () => {
  const summary = summariseRepeats([1, 2, 3, 4, 5]);
  expect(summary).toMatchObject({ count: 5, mean: 3, degreesOfFreedom: 4, range: 4 });
  expect(summary.standardDeviation?.toFixed(7)).toBe("1.5811388");
  expect(summary.standardUncertaintyOfMean?.toFixed(7)).toBe("0.7071068");
});
