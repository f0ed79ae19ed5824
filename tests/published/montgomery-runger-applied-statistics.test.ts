import { expect, it } from "vitest";
import { capabilityOf } from "../../lib/run/capability.ts";
import { combination, distanceStack, link } from "../properties/stacks.ts";

// Montgomery and Runger, Applied Statistics and Probability for Engineers, 3rd edition, example 16-3, p. 623: limits 90 to 110, mean 107,
// standard deviation 1.5: ratios 2.22 and 0.67, and 0.023 above the upper limit (seen).
it("cpk-montgomery-runger-16-3: stackOf(mean 107, 90 to 110) loses 0.023", () => {
  const { chance } = distanceStack(combination(107, [[1, link("process", { shape: "normal", standardDeviation: 1.5 })]]), 90, 110);
  expect(Math.abs(1 - chance - 0.023)).toBeLessThanOrEqual(0.005);
  const { potential, index } = capabilityOf({ mean: 107, standardDeviation: 1.5, count: 30 }, { lower: 90, upper: 110 }, 100);
  expect(Math.abs(potential - 2.22)).toBeLessThanOrEqual(0.005);
  expect(Math.abs(index - 0.67)).toBeLessThanOrEqual(0.005);
});
