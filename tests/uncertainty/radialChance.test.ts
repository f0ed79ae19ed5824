import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { quickRadialChance, radialChance } from "../../lib/uncertainty/radialChance.ts";
import { type RadialTerm, radialDistribution } from "../../lib/uncertainty/radialDistribution.ts";

// The two are computed in different ways: a double Fourier series here, an angle-averaged or chord-wise inversion there.
const shapes = ["normal", "rectangular", "triangular", "arcsine", "scaledT", "curvilinearTrapezoidal", "exponential"] as const;

const term: fc.Arbitrary<RadialTerm> = fc
  .record({
    shape: fc.constantFrom(...shapes),
    size: fc.double({ min: 0.03, max: 1, noNaN: true }),
    direction: fc.oneof(fc.constant(0), fc.constant(Math.PI / 2), fc.double({ min: 0, max: 2 * Math.PI, noNaN: true })),
    freedom: fc.integer({ min: 4, max: 40 }),
  })
  .map(({ shape, size, direction, freedom }) => ({
    coefficient: [size * Math.cos(direction), size * Math.sin(direction)],
    distribution:
      shape === "normal"
        ? { shape, standardDeviation: 0.5 }
        : shape === "scaledT"
          ? { shape, scale: 0.4, degreesOfFreedom: freedom }
          : shape === "exponential"
            ? { shape, mean: 0.5 }
            : { shape, halfWidth: 1, topRatio: freedom / 40 },
  }));

const always: readonly RadialTerm[] = [
  { coefficient: [1, 0], distribution: { shape: "normal", standardDeviation: 0.4 } },
  { coefficient: [0.1, 1], distribution: { shape: "normal", standardDeviation: 0.3 } },
];

interface HardCase {
  readonly mean: readonly [number, number];
  readonly terms: readonly RadialTerm[];
  readonly radius: number;
  readonly chance: number;
}

const hard: readonly HardCase[] = JSON.parse(readFileSync(new URL("../reference/radialChance.json", import.meta.url), "utf8"));

describe("quickRadialChance", () => {
  it("is the chance itself wherever it answers", () => {
    fc.assert(
      fc.property(fc.array(term, { minLength: 1, maxLength: 12 }), fc.double({ min: 0.2, max: 4, noNaN: true }), (terms, radius) => {
        const all = [...terms, ...always];
        const quick = quickRadialChance([0, 0], all, radius);
        expect(quick).toEqual(radialChance([0, 0], all, radius));
      }),
      { numRuns: 60 },
    );
  });
  it("leaves a rectangle that dominates two axes to whoever has time", () => {
    const flat = { shape: "rectangular", halfWidth: 1 } as const;
    const small = { shape: "rectangular", halfWidth: 0.01 } as const;
    const terms = [
      { coefficient: [1, 0], distribution: flat },
      { coefficient: [0, 1], distribution: small },
      { coefficient: [0.3, 0.7], distribution: small },
    ] as const;
    expect(quickRadialChance([0, 0], terms, 1)).toBeUndefined();
    expect(() => quickRadialChance([0, 0], terms, -1)).toThrow("radius: expected >= 0, got -1");
  });
});

describe("radialChance", () => {
  it("radialChance(mean, terms, radius) agrees with the whole distribution to its stated error", () => {
    fc.assert(
      fc.property(
        fc.array(term, { minLength: 1, maxLength: 20 }),
        fc.tuple(fc.double({ min: -2, max: 2, noNaN: true }), fc.double({ min: -2, max: 2, noNaN: true })),
        fc.double({ min: 0.2, max: 6, noNaN: true }),
        (terms, mean, radius) => {
          const all = [...terms, ...always];
          const { chance, error } = radialChance(mean, all, radius);
          const whole = radialDistribution(mean, all);
          expect(Math.abs(chance - whole.cumulative(radius))).toBeLessThan(error + whole.error);
        },
      ),
      { numRuns: 150 },
    );
  });

  it("radialChance(…) does so for clouds that are long, far off the centre or strongly correlated, with many small sources", () => {
    const small = fc
      .tuple(term, fc.double({ min: -5, max: 0, noNaN: true }))
      .map(([{ coefficient, distribution }, logarithm]): RadialTerm => {
        const factor = Math.exp(logarithm);
        return { coefficient: [factor * coefficient[0], factor * coefficient[1]], distribution };
      });
    const long = fc.record({ length: fc.double({ min: 0.3, max: 3, noNaN: true }), direction: fc.double({ min: 0, max: 3, noNaN: true }) });
    fc.assert(
      fc.property(
        fc.array(small, { minLength: 0, maxLength: 22 }),
        long,
        fc.tuple(fc.double({ min: -4, max: 4, noNaN: true }), fc.double({ min: -4, max: 4, noNaN: true })),
        fc.double({ min: 0.2, max: 6, noNaN: true }),
        (terms, { length, direction }, mean, radius) => {
          const axis: RadialTerm = {
            coefficient: [length * Math.cos(direction), length * Math.sin(direction)],
            distribution: { shape: "normal", standardDeviation: 1 },
          };
          const all = [...terms, axis, ...always];
          const { chance, error } = radialChance(mean, all, radius);
          const whole = radialDistribution(mean, all);
          expect(Math.abs(chance - whole.cumulative(radius))).toBeLessThan(error + whole.error);
          expect(error).toBeLessThan(6e-6);
        },
      ),
      { numRuns: 150 },
    );
  });

  it("radialChance(…) leaves what a series cannot do to the whole distribution: no normal part, one direction, a point", () => {
    const cases: readonly (readonly [readonly [number, number], readonly RadialTerm[]])[] = [
      [
        [0.2, 0.1],
        [
          { coefficient: [1, 0], distribution: { shape: "rectangular", halfWidth: 1 } },
          { coefficient: [0, 1], distribution: { shape: "rectangular", halfWidth: 1 } },
        ],
      ],
      [[0.2, 0.1], [{ coefficient: [1, 1], distribution: { shape: "normal", standardDeviation: 1 } }]],
      [[0.2, 0.1], []],
    ];
    for (const [mean, terms] of cases) {
      const { chance, error } = radialChance(mean, terms, 0.9);
      expect(Math.abs(chance - radialDistribution(mean, terms).cumulative(0.9))).toBeLessThanOrEqual(error);
    }
  });

  // Nested quadrature by scipy: tests/reference/radialChance.py. Normals with correlation 0.98; edges that little blurs.
  it.each(hard)("radialChance($mean, $terms, $radius) is within its error of $chance", ({ mean, terms, radius, chance }) => {
    const found = radialChance(mean, terms, radius);
    expect(Math.abs(found.chance - chance)).toBeLessThan(found.error + 1e-8);
    const whole = radialDistribution(mean, terms);
    expect(Math.abs(whole.cumulative(radius) - chance)).toBeLessThan(whole.error + 1e-8);
  });

  it("radialChance(…) does not depend on the unit, and everything lies within an infinite radius", () => {
    const terms: readonly RadialTerm[] = [...always, { coefficient: [0.6, 0.3], distribution: { shape: "rectangular", halfWidth: 1 } }];
    const inUnit = (unit: number) =>
      terms.map(({ coefficient: [x, y], distribution }): RadialTerm => ({ coefficient: [x * unit, y * unit], distribution }));
    const { chance } = radialChance([0.1, 0.2], terms, 0.9);
    for (const unit of [1e-150, 1e-60, 1e60, 1e100])
      expect(radialChance([0.1 * unit, 0.2 * unit], inUnit(unit), 0.9 * unit).chance).toBeCloseTo(chance, 9);
    expect(radialChance([0, 0], terms, Number.POSITIVE_INFINITY).chance).toBe(1);
    expect(radialDistribution([0, 0], terms).cumulative(Number.POSITIVE_INFINITY)).toBe(1);
  });

  it("radialChance(…) refuses a source that is none beside good ones", () => {
    const wrong: RadialTerm = { coefficient: [1, 0], distribution: { shape: "rectangular", halfWidth: -1 } };
    expect(() => radialChance([0, 0], [...always, wrong], 1)).toThrow("halfWidth: expected finite and >= 0, got -1");
  });

  it("radialChance(…, radius) refuses a radius that is not a number of 0 or more", () => {
    expect(() => radialChance([0, 0], [], -1)).toThrow("radius: expected >= 0, got -1");
    expect(() => radialChance([0, 0], [], Number.NaN)).toThrow("radius: expected >= 0, got NaN");
    expect(radialChance([0, 0], always, 0).chance).toBe(0);
  });
});
