import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Distribution } from "../../lib/uncertainty/distribution.ts";
import { type LinearTerm, linearDistribution } from "../../lib/uncertainty/linearDistribution.ts";
import { type SourceDistribution, standardUncertaintyOf } from "../../lib/uncertainty/sourceDistribution.ts";
import { gaussLegendre } from "../../lib/uncertainty/special/gaussLegendre.ts";

interface Reference {
  readonly name: string;
  readonly terms: readonly SourceDistribution[];
  readonly chances: readonly [z: number, chance: number][];
}

/** Direct convolution by adaptive quadrature, no characteristic function: tests/reference/linearDistribution.py (scipy 1.17, exact fractions for equal rectangles). */
const references: readonly Reference[] = JSON.parse(readFileSync(new URL("../reference/linearDistribution.json", import.meta.url), "utf8"));

const once = (distribution: SourceDistribution): LinearTerm => ({ coefficient: 1, distribution });
const normal = (standardDeviation: number) => once({ shape: "normal", standardDeviation });
const rectangular = (halfWidth: number) => once({ shape: "rectangular", halfWidth });
const arcsine = (halfWidth: number) => once({ shape: "arcsine", halfWidth });
const student = (scale: number, degreesOfFreedom: number) => once({ shape: "scaledT", scale, degreesOfFreedom });

describe("against direct convolution", () => {
  for (const { name, terms, chances } of references) {
    it(`linearDistribution(0, ${name}) has every chance within 1e-10, and within the error it states`, () => {
      const distribution = linearDistribution(0, terms.map(once));
      for (const [z, chance] of chances) {
        const error = Math.abs(distribution.cumulative(z) - chance);
        expect(error, `z = ${z}`).toBeLessThan(1e-10);
        expect(error, `z = ${z}`).toBeLessThan(distribution.error + 1e-12);
      }
    });
    it(`linearDistribution(0, ${name}).quantile undoes cumulative`, () => {
      const distribution = linearDistribution(0, terms.map(once));
      for (const [z] of chances) {
        const p = distribution.cumulative(-z);
        // Where the density is that low, the rounding of the chance itself moves the quantile.
        const slack = 1e-7 * distribution.standardDeviation + 1e-13 / distribution.density(z);
        if (p > 1e-6) expect(Math.abs(distribution.quantile(p) + z), `z = ${z}`).toBeLessThan(slack);
      }
    });
  }
});

describe("a point", () => {
  for (const [name, terms] of [
    ["no terms", []],
    ["zero coefficients and scales", [{ coefficient: 0, distribution: { shape: "rectangular", halfWidth: 2 } }, normal(0)]],
  ] as const) {
    const point = linearDistribution(3, terms);
    it(`linearDistribution(3, ${name}).cumulative steps from 0 to 1 at 3`, () => {
      expect([2.999, 3, 3.001].map(point.cumulative)).toEqual([0, 1, 1]);
    });
    it(`linearDistribution(3, ${name}).density is Infinity at 3 and 0 elsewhere`, () => {
      expect([2.999, 3].map(point.density)).toEqual([0, Number.POSITIVE_INFINITY]);
    });
    it(`linearDistribution(3, ${name}) has every quantile and interval at 3, and standard deviation 0`, () => {
      expect([0, 0.3, 1].map(point.quantile)).toEqual([3, 3, 3]);
      expect(point.interval(0.95, "shortest")).toEqual([3, 3]);
      expect(point.standardDeviation).toBe(0);
    });
    it(`linearDistribution(3, ${name}).chanceWithin counts limits as inside`, () => {
      expect([point.chanceWithin(3, 4), point.chanceWithin(2, 3), point.chanceWithin(3.1, 4), point.chanceWithin(4, 2)]).toEqual([
        1, 1, 0, 0,
      ]);
    });
  }
});

describe("edges", () => {
  it("linearDistribution(mean, bounded).quantile(0) and (1) are its ends, of unbounded infinite", () => {
    const bounded = linearDistribution(10, [rectangular(1), arcsine(0.5)]);
    expect([bounded.quantile(0), bounded.quantile(1)]).toEqual([8.5, 11.5]);
    expect(linearDistribution(0, [rectangular(1), normal(1)]).quantile(1)).toBe(Number.POSITIVE_INFINITY);
  });
  it("linearDistribution(0, t of one degree of freedom) keeps the GUM's standard uncertainty and Cauchy's quantiles", () => {
    const cauchy = linearDistribution(0, [student(2, 1), student(3, 1)]);
    expect(cauchy.standardDeviation).toBeCloseTo(Math.hypot(2, 3), 12);
    // Cauchy variables add by their scales: quantile 5 tan(π(p - ½)).
    for (const p of [0.6, 0.975, 0.99999]) expect(cauchy.quantile(p) / (5 * Math.tan(Math.PI * (p - 0.5)))).toBeCloseTo(1, 10);
  });
  it("linearDistribution(0, 10 000 terms) is the normal its variances add up to, but for its kurtosis", () => {
    const terms = Array.from({ length: 10_000 }, () => rectangular(1));
    const distribution = linearDistribution(0, terms);
    const u = Math.sqrt(10_000 / 3);
    expect(distribution.standardDeviation).toBeCloseTo(u, 9);
    // Edgeworth: Φ(1) - κ/24 (1 - 3) φ(1) with excess kurtosis κ = -1.2 / 10 000.
    expect(distribution.cumulative(u)).toBeCloseTo(0.8413447460685429 + ((-1.2e-4 * 2) / 24) * 0.24197072451914337, 9);
  });
  it("linearDistribution(0, terms) does not mind scales of 1e-300 and 1e300", () => {
    const chances = [1e-300, 1, 1e300].map((scale) => {
      const distribution = linearDistribution(0, [rectangular(scale), normal(scale), student(scale, 5)]);
      return distribution.cumulative(1.5 * scale);
    });
    expect(chances[0]).toBeCloseTo(chances[1] as number, 12);
    expect(chances[2]).toBeCloseTo(chances[1] as number, 12);
  });
  it("linearDistribution(0, a rectangle and a normal 1e12 times smaller) is the rectangle", () => {
    expect(linearDistribution(0, [rectangular(1), normal(1e-12)]).cumulative(0.5)).toBeCloseTo(0.75, 11);
  });
  it("linearDistribution(0, a trapezoid with top ratio 0 or 1) is the triangle and the rectangle", () => {
    const at = (distribution: SourceDistribution) => linearDistribution(0, [once(distribution), normal(0.1)]).cumulative(0.6);
    expect(at({ shape: "trapezoidal", halfWidth: 1, topRatio: 0 })).toBeCloseTo(at({ shape: "triangular", halfWidth: 1 }), 13);
    expect(at({ shape: "trapezoidal", halfWidth: 1, topRatio: 1 })).toBeCloseTo(at({ shape: "rectangular", halfWidth: 1 }), 13);
  });
  it("linearDistribution(0, t of Infinity degrees of freedom) is the normal", () => {
    expect(linearDistribution(0, [student(1, Number.POSITIVE_INFINITY), normal(1)]).method).toBe("normal");
  });
  it('interval(p, "shortest") of an arcsine begins at one end: length 1 - cos(πp) (closed form)', () => {
    const [lower, upper] = linearDistribution(0, [arcsine(1)]).interval(0.95, "shortest");
    expect(upper - lower).toBeCloseTo(1 - Math.cos(0.95 * Math.PI), 9);
  });
  it('interval(p, "symmetric") of an arcsine is ± sin(πp/2) (closed form)', () => {
    const [lower, upper] = linearDistribution(5, [arcsine(1)]).interval(0.95, "symmetric");
    expect(lower).toBeCloseTo(5 - Math.sin((0.95 * Math.PI) / 2), 12);
    expect(upper).toBeCloseTo(5 + Math.sin((0.95 * Math.PI) / 2), 12);
  });
  it("chanceWithin(lower, upper) with reversed limits is 0", () => {
    expect(linearDistribution(0, [normal(1)]).chanceWithin(1, -1)).toBe(0);
  });
});

describe("refusals", () => {
  it("linearDistribution(mean, terms) names the argument and the value it rejects", () => {
    expect(() => linearDistribution(Number.NaN, [])).toThrow("mean: expected finite, got NaN");
    expect(() =>
      linearDistribution(0, [{ coefficient: Number.POSITIVE_INFINITY, distribution: { shape: "normal", standardDeviation: 1 } }]),
    ).toThrow("coefficient: expected finite, got Infinity");
    expect(() => linearDistribution(0, [normal(-1)])).toThrow("standardDeviation: expected finite and >= 0, got -1");
    expect(() => linearDistribution(0, [rectangular(Number.NaN)])).toThrow("halfWidth: expected finite and >= 0, got NaN");
    expect(() => linearDistribution(0, [student(1, 0)])).toThrow("degreesOfFreedom: expected > 0, got 0");
    expect(() => linearDistribution(0, [once({ shape: "trapezoidal", halfWidth: 1, topRatio: 1.1 })])).toThrow(
      "topRatio: expected 0 to 1, got 1.1",
    );
  });
  it("quantile(p) and interval(p) refuse what is no chance", () => {
    const distribution = linearDistribution(0, [normal(1), rectangular(1)]);
    expect(() => distribution.quantile(1.5)).toThrow("p: expected 0 to 1, got 1.5");
    expect(() => distribution.interval(1, "symmetric")).toThrow("probability: expected above 0 and below 1, got 1");
  });
});

describe("properties", () => {
  // Whole hundredths: realistic sizes, where floating-point doubles would nearly all be absurdly small.
  const hundredths = (min: number, max: number) => fc.integer({ min: 100 * min, max: 100 * max }).map((value) => value / 100);
  const size = hundredths(0.05, 5);
  const source: fc.Arbitrary<SourceDistribution> = fc.oneof(
    fc.record({ shape: fc.constant("normal" as const), standardDeviation: size }),
    fc.record({ shape: fc.constant("rectangular" as const), halfWidth: size }),
    fc.record({ shape: fc.constant("triangular" as const), halfWidth: size }),
    fc.record({ shape: fc.constant("trapezoidal" as const), halfWidth: size, topRatio: hundredths(0, 1) }),
    fc.record({ shape: fc.constant("arcsine" as const), halfWidth: size }),
    fc.record({
      shape: fc.constant("scaledT" as const),
      scale: size,
      degreesOfFreedom: fc.oneof(fc.integer({ min: 1, max: 40 }), fc.constant(4.7)),
    }),
  );
  const terms = fc.array(fc.record({ coefficient: hundredths(-2, 2), distribution: source }), { minLength: 1, maxLength: 6 });
  const mean = hundredths(-50, 50);
  const settings = { numRuns: 60 };

  it("cumulative never falls by more than its error, and stays within 0 to 1", () => {
    fc.assert(
      fc.property(mean, terms, (at, list) => {
        const distribution = linearDistribution(at, list);
        let before = 0;
        for (let k = -40; k <= 40; k += 1) {
          const chance = distribution.cumulative(at + (k / 8) * distribution.standardDeviation);
          expect(chance).toBeGreaterThanOrEqual(before - 2 * distribution.error - 1e-13);
          expect(chance).toBeLessThanOrEqual(1);
          before = chance;
        }
      }),
      settings,
    );
  });
  it("cumulative(mean + d) is 1 - cumulative(mean - d)", () => {
    fc.assert(
      fc.property(terms, hundredths(0.01, 8), (list, steps) => {
        const distribution = linearDistribution(0, list);
        const d = steps * distribution.standardDeviation;
        if (d > 0) expect(distribution.cumulative(d)).toBeCloseTo(1 - distribution.cumulative(-d), 14);
      }),
      settings,
    );
  });
  it("shifting the mean and scaling the coefficients shift and scale every quantile", () => {
    fc.assert(
      fc.property(mean, terms, hundredths(0.01, 1000), hundredths(0.01, 0.99), (at, list, factor, p) => {
        const plain = linearDistribution(0, list);
        const moved = linearDistribution(
          at,
          list.map(({ coefficient, distribution }) => ({ coefficient: factor * coefficient, distribution })),
        );
        expect(Math.abs(moved.quantile(p) - at - factor * plain.quantile(p))).toBeLessThanOrEqual(
          1e-7 * factor * plain.standardDeviation + 1e-12 * Math.abs(at),
        );
      }),
      settings,
    );
  });
  it("without t terms the variance of the density is the sum of the squared contributions", () => {
    const light = terms.filter(
      (list) =>
        list.every(({ distribution }) => distribution.shape !== "scaledT") &&
        list.some(({ distribution, coefficient }) => distribution.shape === "normal" && Math.abs(coefficient) > 0.3),
    );
    fc.assert(
      fc.property(light, (list) => {
        const expected = list.reduce(
          (sum, { coefficient, distribution }) => sum + (coefficient * standardUncertaintyOf(distribution)) ** 2,
          0,
        );
        expect(varianceByDensity(linearDistribution(0, list)) / expected).toBeCloseTo(1, 7);
        expect(linearDistribution(0, list).standardDeviation ** 2 / expected).toBeCloseTo(1, 12);
      }),
      settings,
    );
  });
  it("chanceWithin(interval(p)) is p, for both kinds, and the shortest is no longer than the symmetric", () => {
    fc.assert(
      fc.property(terms, hundredths(0.05, 0.99), (list, p) => {
        const distribution = linearDistribution(0, list);
        if (distribution.standardDeviation === 0) return;
        const symmetric = distribution.interval(p, "symmetric");
        const shortest = distribution.interval(p, "shortest");
        expect(distribution.chanceWithin(...symmetric)).toBeCloseTo(p, 8);
        expect(distribution.chanceWithin(...shortest)).toBeCloseTo(p, 6);
        expect(shortest[1] - shortest[0]).toBeLessThanOrEqual((symmetric[1] - symmetric[0]) * (1 + 1e-9));
      }),
      { ...settings, numRuns: 25 },
    );
  });
});

/** ∫ z² f(z) dz by Gauss panels of an eighth of a standard deviation out to 9, so that an edge rounded by a few hundredths is seen. */
function varianceByDensity({ density, standardDeviation: u }: Distribution): number {
  const { nodes, weights } = gaussLegendre(16);
  let sum = 0;
  for (let k = -72; k < 72; k += 1) {
    for (const [j, node] of nodes.entries()) {
      const z = (u * (2 * k + 1 + node)) / 16;
      sum += (u / 16) * (weights[j] as number) * z * z * density(z);
    }
  }
  return sum;
}
