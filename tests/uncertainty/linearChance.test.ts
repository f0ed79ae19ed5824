import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { linearChance } from "../../lib/uncertainty/linearChance.ts";
import { type LinearTerm, linearDistribution } from "../../lib/uncertainty/linearDistribution.ts";
import { normalCumulative } from "../../lib/uncertainty/special/normalCumulative.ts";

// Two ways to the same chance: a Fourier series with cumulants for small sources here, inversion of the characteristic function there.
const shapes = [
  "normal",
  "rectangular",
  "triangular",
  "trapezoidal",
  "arcsine",
  "scaledT",
  "curvilinearTrapezoidal",
  "exponential",
] as const;

const term: fc.Arbitrary<LinearTerm> = fc
  .record({
    shape: fc.constantFrom(...shapes),
    logarithm: fc.double({ min: -6, max: 0.5, noNaN: true }),
    sign: fc.constantFrom(-1, 1),
    freedom: fc.integer({ min: 2, max: 60 }),
  })
  .map(({ shape, logarithm, sign, freedom }) => ({
    coefficient: sign * Math.exp(logarithm),
    distribution:
      shape === "normal"
        ? { shape, standardDeviation: 0.5 }
        : shape === "scaledT"
          ? { shape, scale: 0.4, degreesOfFreedom: freedom }
          : shape === "exponential"
            ? { shape, mean: 0.5 }
            : { shape, halfWidth: 1, topRatio: 0.3 },
  }));

const always: LinearTerm = { coefficient: 1, distribution: { shape: "normal", standardDeviation: 0.3 } };

describe("linearChance", () => {
  it("linearChance(mean, terms, lower, upper) agrees with the whole distribution to its stated error, which is below 1e-9", () => {
    fc.assert(
      fc.property(
        fc.array(term, { minLength: 0, maxLength: 24 }),
        fc.double({ min: -3, max: 3, noNaN: true }),
        fc.tuple(fc.double({ min: -9, max: 9, noNaN: true }), fc.double({ min: -9, max: 9, noNaN: true })),
        (terms, mean, [a, b]) => {
          const all = [...terms, always];
          const [lower, upper] = [Math.min(a, b), Math.max(a, b)];
          const { chance, error } = linearChance(mean, all, lower, upper);
          const whole = linearDistribution(mean, all);
          expect(Math.abs(chance - whole.chanceWithin(lower, upper))).toBeLessThan(error + 2 * whole.error);
          expect(error).toBeLessThan(1e-9);
        },
      ),
      { numRuns: 400 },
    );
  });

  it("linearChance(0, [normal], -1, 1.5 σ) is that of the normal, and one-sided limits leave one tail", () => {
    const normal: readonly LinearTerm[] = [{ coefficient: 2, distribution: { shape: "normal", standardDeviation: 0.5 } }];
    expect(linearChance(0, normal, -1, 1.5).chance).toBeCloseTo(normalCumulative(1.5) - normalCumulative(-1), 9);
    expect(linearChance(0, normal, Number.NEGATIVE_INFINITY, 1.5).chance).toBeCloseTo(normalCumulative(1.5), 9);
    expect(linearChance(0, normal, Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY).chance).toBeCloseTo(1, 9);
    expect(linearChance(0, normal, 40, 50).chance).toBe(0);
    expect(linearChance(0, normal, 1, -1).chance).toBe(0);
  });

  it("linearChance(…) leaves to the whole distribution what has no normal part, and a point", () => {
    const rectangle: LinearTerm = { coefficient: 1, distribution: { shape: "rectangular", halfWidth: 1 } };
    expect(linearChance(0.2, [rectangle], 0, 9).chance).toBeCloseTo(0.6, 12);
    expect(linearChance(0.2, [], 0, 1).chance).toBe(1);
    expect(linearChance(0.2, [], 0.3, 1).chance).toBe(0);
  });

  it("linearChance(…) takes limits without an end where the whole distribution answers, and any unit", () => {
    const terms: readonly LinearTerm[] = [
      { coefficient: 1, distribution: { shape: "scaledT", scale: 0.01, degreesOfFreedom: 5 } },
      { coefficient: 1, distribution: { shape: "rectangular", halfWidth: 0.01 } },
    ];
    const { POSITIVE_INFINITY: endless } = Number;
    const above = linearChance(0, terms, 0.01, endless).chance;
    expect(linearChance(0, terms, -endless, 0.01).chance + above).toBeCloseTo(1, 9);
    expect(linearChance(0, terms, -endless, endless).chance).toBe(1);
    expect(linearChance(0, terms, -1e308, 1e308).chance).toBeCloseTo(1, 9);
    const inUnit = (unit: number): LinearTerm[] => [...terms, always].map((each) => ({ ...each, coefficient: each.coefficient * unit }));
    for (const unit of [1e-150, 1e60, 1e100])
      expect(linearChance(0, inUnit(unit), -0.3 * unit, 0.4 * unit).chance).toBeCloseTo(linearChance(0, inUnit(1), -0.3, 0.4).chance, 9);
  });

  it("linearChance(…, NaN) is refused", () => {
    expect(() => linearChance(0, [always], Number.NaN, 1)).toThrow("limits: expected numbers, got NaN to 1");
  });
});

// Closed form: Φ(1) of the normal distribution (0.8413447460685429), limits that binary numbers hold exactly.
it("does not lose digits where the mean is many uncertainties from zero", () => {
  const mean = 3 * 2 ** 30;
  const unit = 2 ** -20;
  const { chance, error } = linearChance(
    mean,
    [5, 12].map((size) => ({ coefficient: size, distribution: { shape: "normal", standardDeviation: unit } })),
    Number.NEGATIVE_INFINITY,
    mean + 13 * unit,
  );
  expect(Math.abs(chance - 0.8413447460685429)).toBeLessThan(error);
});
