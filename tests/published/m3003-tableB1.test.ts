import { expect, it } from "vitest";
import { coverageFactor } from "../../lib/uncertainty/coverage.ts";
import { normalCumulative } from "../../lib/uncertainty/special/normalCumulative.ts";

// M3003 (editions 3 and 4), Appendix B, Table B.1, coverage probability 95.45 %, two decimals (values from memory, recomputed).
it.each([
  ["m3003-k-nu9", 9, 2.32],
  ["m3003-k-nu12", 12, 2.23],
  ["m3003-k-nu14", 14, 2.2],
  ["m3003-k-nu18", 18, 2.15],
  ["m3003-k-nu25", 25, 2.11],
  ["m3003-k-nu35", 35, 2.07],
  ["m3003-k-nu40", 40, 2.06],
  ["m3003-k-nu60", 60, 2.04],
  ["m3003-k-nu80", 80, 2.03],
])("%s: coverageFactor(95.45 %%, %d) is %d", (_, degreesOfFreedom, k) => {
  expect(Math.abs(coverageFactor(2 * normalCumulative(2) - 1, degreesOfFreedom) - k)).toBeLessThanOrEqual(0.0066);
});
