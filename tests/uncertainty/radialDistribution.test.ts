import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { normalDiscChance } from "../../lib/uncertainty/normalDiscChance.ts";
import { type RadialTerm, radialDistribution } from "../../lib/uncertainty/radialDistribution.ts";
import type { SourceDistribution } from "../../lib/uncertainty/sourceDistribution.ts";

interface Reference {
  readonly name: string;
  readonly mean: [number, number];
  readonly terms: readonly RadialTerm[];
  readonly chances: readonly [radius: number, chance: number][];
}

/** Noncentral chi-square averaged over the other sources, or direct quadrature: tests/reference/radialDistribution.py (scipy 1.17). */
const references: readonly Reference[] = JSON.parse(readFileSync(new URL("../reference/radialDistribution.json", import.meta.url), "utf8"));

const along = (x: number, y: number, distribution: SourceDistribution): RadialTerm => ({ coefficient: [x, y], distribution });
const normal = (x: number, y: number, standardDeviation = 1) => along(x, y, { shape: "normal", standardDeviation });
const rectangular = (x: number, y: number, halfWidth = 1) => along(x, y, { shape: "rectangular", halfWidth });
const student = (x: number, y: number, scale: number, degreesOfFreedom: number) =>
  along(x, y, { shape: "scaledT", scale, degreesOfFreedom });

describe("against quadrature without characteristic functions", () => {
  for (const { name, mean, terms, chances } of references) {
    // The reference itself cannot follow the edges of three rectangles closer than this.
    const reach = name === "three rectangles" ? 5e-6 : 1e-6;
    it(`radialDistribution(mean, ${name}) has every chance within ${reach}`, () => {
      const distribution = radialDistribution(mean, terms);
      for (const [radius, chance] of chances)
        expect(Math.abs(distribution.cumulative(radius) - chance), `r = ${radius}`).toBeLessThan(reach);
      expect(distribution.error).toBeLessThan(5e-6);
    });
  }
});

describe("closed forms", () => {
  it("radialDistribution([0, 0], round normal).cumulative is Rayleigh's, its mean σ√(π/2), its standard deviation σ√(2 - π/2)", () => {
    const rayleigh = radialDistribution([0, 0], [normal(2, 0), normal(0, 2)]);
    for (const r of [0.1, 1, 4, 9]) expect(rayleigh.cumulative(r)).toBeCloseTo(-Math.expm1((-r * r) / 8), 12);
    expect(rayleigh.density(3)).toBeCloseTo((3 / 4) * Math.exp(-9 / 8), 11);
    expect(rayleigh.mean).toBeCloseTo(2 * Math.sqrt(Math.PI / 2), 5);
    expect(rayleigh.standardDeviation).toBeCloseTo(2 * Math.sqrt(2 - Math.PI / 2), 5);
    expect(rayleigh.quantile(0.9973)).toBeCloseTo(2 * Math.sqrt(-2 * Math.log(0.0027)), 10);
  });
  it("radialDistribution(mean, normal sources) equals normalDiscChance of their covariance", () => {
    const terms = [normal(1, 0.5), normal(-0.3, 0.8), normal(0.2, 0.2)];
    const covariance = [1 + 0.09 + 0.04, 0.5 - 0.24 + 0.04, 0.25 + 0.64 + 0.04] as const;
    const distribution = radialDistribution([0.4, -1], terms);
    for (const r of [0.2, 1, 2.5, 5]) expect(distribution.cumulative(r)).toBeCloseTo(normalDiscChance([0.4, -1], covariance, r), 11);
  });
  it("radialDistribution(mean, terms whose normal part rules) nears normalDiscChance: an independent check of the inversion", () => {
    // A rectangle of 1/1000 of the variance: its excess kurtosis moves chances by less than 1e-6.
    const small = Math.sqrt(3e-3);
    const distribution = radialDistribution([0.3, 0.2], [normal(1, 0), normal(0.2, 0.7), rectangular(0, small)]);
    for (const r of [0.5, 1, 2, 3])
      expect(distribution.cumulative(r)).toBeCloseTo(normalDiscChance([0.3, 0.2], [1.04, 0.14, 0.49 + 1e-3], r), 6);
  });
  it("radialDistribution(mean, parallel terms) folds the one-dimensional law: a rectangle at distance 1 has √(1 + x²)", () => {
    const folded = radialDistribution([1, 0], [rectangular(0, 1), along(0, 0, { shape: "normal", standardDeviation: 5 })]);
    expect([0.9, 1, Math.SQRT2].map(folded.cumulative)).toEqual([0, 0, 1]);
    expect(folded.cumulative(1.25)).toBeCloseTo(0.75, 12);
    expect(folded.mean).toBeCloseTo((Math.SQRT2 + Math.asinh(1)) / 2, 4);
  });
  it("radialDistribution([0, 0], two square triangles).cumulative is exact where the disc lies within one corner piece", () => {
    // Within r <= 1 of the product of (1 - |x|)(1 - |y|): π r² - 8 r³/3 + r⁴/2 (closed form).
    const distribution = radialDistribution(
      [0, 0],
      [along(1, 0, { shape: "triangular", halfWidth: 1 }), along(0, 1, { shape: "triangular", halfWidth: 1 })],
    );
    for (const r of [0.1, 0.5, 0.9]) expect(distribution.cumulative(r)).toBeCloseTo(Math.PI * r * r - (8 * r ** 3) / 3 + r ** 4 / 2, 9);
  });
  it("radialDistribution([0, 0], two square rectangles).cumulative is the area of the disc over that of the square", () => {
    const distribution = radialDistribution([0, 0], [rectangular(1, 0), rectangular(0, 1)]);
    for (const r of [0.2, 0.7, 0.999]) expect(distribution.cumulative(r)).toBeCloseTo((Math.PI * r * r) / 4, 9);
  });
});

describe("edges", () => {
  it("radialDistribution([3, 4], no terms) is the point 5", () => {
    const point = radialDistribution([3, 4], []);
    expect([4.99, 5].map(point.cumulative)).toEqual([0, 1]);
    expect([point.mean, point.standardDeviation, point.quantile(0.5)]).toEqual([5, 0, 5]);
  });
  it("radialDistribution(mean, terms).cumulative(r) is 0 up to 0 and density too", () => {
    const distribution = radialDistribution([0, 0], [normal(1, 0), rectangular(0, 1)]);
    expect([distribution.cumulative(0), distribution.cumulative(-1), distribution.density(-1)]).toEqual([0, 0, 0]);
  });
  it("radialDistribution(mean, t of one degree of freedom) has no mean and no standard deviation", () => {
    const distribution = radialDistribution([0, 0], [student(1, 0, 0.5, 1), normal(1, 0), normal(0, 1)]);
    expect([distribution.mean, distribution.standardDeviation]).toEqual([Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY]);
  });
  it("radialDistribution(mean, a cloud 1e6 times as long as wide) equals the folded line to 1e-6", () => {
    const thin = radialDistribution([0, 0], [rectangular(1, 0), normal(0, 1e-6), rectangular(0.3, 0)]);
    const line = radialDistribution([0, 0], [rectangular(1, 0), rectangular(0.3, 0)]);
    for (const r of [0.1, 0.6, 1.2]) expect(thin.cumulative(r)).toBeCloseTo(line.cumulative(r), 6);
  });
  it("radialDistribution(mean a million spreads away) is the chance along the mean", () => {
    const distribution = radialDistribution([1e6, 0], [normal(1, 0), normal(0, 1), rectangular(0, 1)]);
    expect(distribution.cumulative(1e6 + 1)).toBeCloseTo(0.8413447460685429, 6); // Φ(1)
    expect(distribution.quantile(0.8413447460685429) - 1e6).toBeCloseTo(1, 5);
  });
  it("radialDistribution(mean, terms) does not mind scales of 1e-200 and 1e200", () => {
    const chances = [1e-200, 1, 1e200].map((scale) =>
      radialDistribution([0.3 * scale, 0], [normal(scale, 0), rectangular(0, scale), student(scale, scale, 0.3, 5)]).cumulative(scale),
    );
    expect(chances[0]).toBeCloseTo(chances[1] as number, 10);
    expect(chances[2]).toBeCloseTo(chances[1] as number, 10);
  });
});

describe("refusals", () => {
  it("radialDistribution(mean, terms) names the argument and the value it rejects", () => {
    expect(() => radialDistribution([0, Number.NaN], [])).toThrow("mean: expected finite, got 0,NaN");
    expect(() => radialDistribution([0, 0], [normal(Number.POSITIVE_INFINITY, 0)])).toThrow("coefficient: expected finite, got Infinity,0");
    expect(() => radialDistribution([0, 0], [normal(1, 0, -1)])).toThrow("standardDeviation: expected finite and >= 0, got -1");
  });
  it("quantile(p) refuses what is no chance", () => {
    expect(() => radialDistribution([0, 0], [normal(1, 0), normal(0, 1)]).quantile(-0.1)).toThrow("p: expected 0 to 1, got -0.1");
  });
});

describe("properties", () => {
  const hundredths = (min: number, max: number) => fc.integer({ min: 100 * min, max: 100 * max }).map((value) => value / 100);
  const source: fc.Arbitrary<SourceDistribution> = fc.oneof(
    fc.record({ shape: fc.constant("rectangular" as const), halfWidth: hundredths(0.2, 2) }),
    fc.record({ shape: fc.constant("triangular" as const), halfWidth: hundredths(0.2, 2) }),
    fc.record({ shape: fc.constant("arcsine" as const), halfWidth: hundredths(0.2, 2) }),
    fc.record({ shape: fc.constant("scaledT" as const), scale: hundredths(0.2, 1), degreesOfFreedom: fc.integer({ min: 2, max: 20 }) }),
  );
  const term = fc.record({ coefficient: fc.tuple(hundredths(-1, 1), hundredths(-1, 1)), distribution: source });
  // A round normal part, as repeatability gives in practice, keeps these quick.
  const terms = fc.array(term, { minLength: 1, maxLength: 5 }).map((list): RadialTerm[] => [normal(0.6, 0), normal(0, 0.6), ...list]);
  const mean = fc.tuple(hundredths(-2, 2), hundredths(-2, 2));
  const settings = { numRuns: 40 };

  it("cumulative never falls by more than its error, and stays within 0 to 1", () => {
    fc.assert(
      fc.property(mean, terms, (centre, list) => {
        const distribution = radialDistribution(centre, list);
        let before = 0;
        for (let k = 1; k <= 40; k += 1) {
          const chance = distribution.cumulative(k / 5);
          expect(chance).toBeGreaterThanOrEqual(before - distribution.error);
          expect(chance).toBeLessThanOrEqual(1);
          before = chance;
        }
      }),
      settings,
    );
  });
  it("turning the plane changes nothing", () => {
    fc.assert(
      fc.property(mean, terms, hundredths(0, 6.28), hundredths(0.1, 5), (centre, list, angle, radius) => {
        const [c, s] = [Math.cos(angle), Math.sin(angle)];
        const turn = ([x, y]: readonly [number, number]): [number, number] => [c * x - s * y, s * x + c * y];
        const turned = radialDistribution(
          turn(centre),
          list.map(({ coefficient, distribution }) => ({ coefficient: turn(coefficient), distribution })),
        );
        const plain = radialDistribution(centre, list);
        expect(Math.abs(turned.cumulative(radius) - plain.cumulative(radius))).toBeLessThanOrEqual(plain.error + turned.error);
      }),
      settings,
    );
  });
  it("scaling mean and coefficients scales every quantile", () => {
    fc.assert(
      fc.property(mean, terms, hundredths(0.01, 900), hundredths(0.02, 0.99), (centre, list, factor, p) => {
        const plain = radialDistribution(centre, list);
        const scaled = radialDistribution(
          [factor * centre[0], factor * centre[1]],
          list.map(({ coefficient: [x, y], distribution }) => ({ coefficient: [factor * x, factor * y], distribution })),
        );
        expect(scaled.quantile(p) / (factor * plain.quantile(p))).toBeCloseTo(1, 5);
      }),
      settings,
    );
  });
  it("cumulative(quantile(p)) is p, and chanceWithin(interval(p)) too", () => {
    fc.assert(
      fc.property(mean, terms, hundredths(0.02, 0.99), (centre, list, p) => {
        const distribution = radialDistribution(centre, list);
        expect(distribution.cumulative(distribution.quantile(p))).toBeCloseTo(p, 9);
        expect(distribution.chanceWithin(...distribution.interval(p, "symmetric"))).toBeCloseTo(p, 8);
      }),
      settings,
    );
  });
});
