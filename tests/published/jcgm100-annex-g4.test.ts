import { expect, it } from "vitest";
import { coverageFactor } from "../../lib/uncertainty/coverage.ts";
import { effectiveDegreesOfFreedom } from "../../lib/uncertainty/effectiveDegreesOfFreedom.ts";
import { judgedDegreesOfFreedom } from "../../lib/uncertainty/judgedDegreesOfFreedom.ts";

// JCGM 100:2008, G.4.1, example: Y = b X1 X2 X3 from 10, 5 and 15 observations with 0.25 %, 0.57 % and 0.82 %: u = 1.03 %, 19.0 degrees of
// freedom, t95 = 2.09, U95 = 2.2 % (value from memory, recomputed).
it("gum-G.4.1-ws: effectiveDegreesOfFreedom(three contributions) is 19.0, and U95 is 2.2 %", () => {
  const contributions = [
    { contribution: 0.25, degreesOfFreedom: 9 },
    { contribution: 0.57, degreesOfFreedom: 4 },
    { contribution: 0.82, degreesOfFreedom: 14 },
  ];
  const u = Math.hypot(...contributions.map(({ contribution }) => contribution));
  const degreesOfFreedom = effectiveDegreesOfFreedom(contributions);
  expect(Math.abs(u - 1.03)).toBeLessThanOrEqual(0.005);
  expect(Math.abs(degreesOfFreedom - 19.0)).toBeLessThanOrEqual(0.06);
  const k = coverageFactor(0.95, Math.floor(degreesOfFreedom));
  expect(Math.abs(coverageFactor(0.95, 19) - 2.09)).toBeLessThanOrEqual(0.005);
  expect(Math.abs(k * u - 2.2)).toBeLessThanOrEqual(0.05);
});

// G.4.2, equation G.3: a standard uncertainty judged to be known to 25 % has 8 degrees of freedom (value from memory, recomputed); H.1.6: 10 %
// has 50, 50 % has 2.
it.each([
  [0.25, 8],
  [0.1, 50],
  [0.5, 2],
])("gum-G.4.2-relunc: judgedDegreesOfFreedom(%d) is %d", (relativeUncertainty, degreesOfFreedom) => {
  expect(judgedDegreesOfFreedom(relativeUncertainty)).toBeCloseTo(degreesOfFreedom, 10);
});
