import { expect, it } from "vitest";
import { coverageFactor } from "../../lib/uncertainty/coverage.ts";
import { normalCumulative } from "../../lib/uncertainty/special/normalCumulative.ts";

// M3003 (editions 3 and 4), Appendix B, Table B.1, coverage probability 95.45 %, two decimals (values from memory, recomputed).
it.each([
  [9, 2.32],
  [12, 2.23],
  [14, 2.2],
  [18, 2.15],
  [25, 2.11],
  [35, 2.07],
  [40, 2.06],
  [60, 2.04],
  [80, 2.03],
])("m3003-k: coverageFactor(95.45 %%, %d) is %d", (degreesOfFreedom, k) => {
  expect(Math.abs(coverageFactor(2 * normalCumulative(2) - 1, degreesOfFreedom) - k)).toBeLessThanOrEqual(0.0066);
});
