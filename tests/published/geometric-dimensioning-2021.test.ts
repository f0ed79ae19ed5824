import { expect, it } from "vitest";
import { combination, positionStack } from "../properties/stacks.ts";

// GD&T: Application and Interpretation (2021), p. 312, figures 8-20 and 8-21: offsets 0.006 and -0.001 in give a position of 0.0122 (seen).
it("position-gw-hole1: stackOf(offsets 0.006 and -0.001) uses the diameter 0.0122", () => {
  const { deviation } = positionStack(combination(0.006, []), combination(-0.001, []), 0.014);
  expect(Math.abs(deviation - 0.0122)).toBeLessThanOrEqual(5e-5);
});
