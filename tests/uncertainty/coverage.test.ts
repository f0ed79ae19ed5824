import fc from "fast-check";
import { expect, it } from "vitest";
import { coverageFactor } from "../../lib/uncertainty/coverage.ts";

it("coverageFactor(0.95, ν) is the two-sided t factor (scipy.stats.t.ppf(0.975, ν))", () => {
  expect(coverageFactor(0.95, 4)).toBeCloseTo(2.7764451051977987, 13);
  expect(coverageFactor(0.95, 50)).toBeCloseTo(2.0085591121007607, 13);
});
it("coverageFactor(p, Infinity) is the normal's factor (scipy.stats.norm.ppf)", () => {
  expect(coverageFactor(0.95, Number.POSITIVE_INFINITY)).toBeCloseTo(1.959963984540054, 13);
});
it("coverageFactor(p, ν) takes broken degrees of freedom as they are, between the whole ones", () => {
  expect(coverageFactor(0.95, 6.4)).toBeCloseTo(2.410314499647891, 12); // scipy.stats.t.ppf(0.975, 6.4)
});
it("coverageFactor(p, ν) falls with ν and rises with p", () => {
  fc.assert(
    fc.property(fc.double({ min: 0.01, max: 0.999, noNaN: true }), fc.double({ min: 0.5, max: 200, noNaN: true }), (p, nu) => {
      expect(coverageFactor(p, nu * 1.1)).toBeLessThan(coverageFactor(p, nu));
      expect(coverageFactor(p + 0.0005, nu)).toBeGreaterThan(coverageFactor(p, nu));
    }),
    { numRuns: 200 },
  );
});
it("coverageFactor(p, ν) names the argument and the value it rejects", () => {
  for (const p of [0, 1, Number.NaN]) expect(() => coverageFactor(p, 5)).toThrow(`probability: expected above 0 and below 1, got ${p}`);
  expect(() => coverageFactor(0.95, 0)).toThrow("degreesOfFreedom: expected > 0, got 0");
});
