import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { expandedUncertainty } from "../../lib/record/expandedUncertainty.ts";
import { budgetOf } from "../../lib/uncertainty/budget.ts";
import { linearChance } from "../../lib/uncertainty/linearChance.ts";
import { type LinearTerm, linearDistribution } from "../../lib/uncertainty/linearDistribution.ts";
import { radialChance } from "../../lib/uncertainty/radialChance.ts";
import type { SourceDistribution } from "../../lib/uncertainty/sourceDistribution.ts";
import { runBlocks } from "../../lib/uncertainty/trials/runTrials.ts";
import { TrialModel } from "../../lib/uncertainty/trials/trialModel.ts";
import { momentsOf, type OutputTally } from "../../lib/uncertainty/trials/trialTally.ts";
import { fromSource, sum } from "../../lib/uncertainty/uncertain.ts";
import { sourceOf } from "../properties/expressions.ts";

type Chances = readonly (readonly [z: number, chance: number])[];

/** tests/reference/hardCases.py (scipy 1.17). */
const reference: {
  readonly dominantRectangle: { halfWidth: number; standardDeviation: number; quantile975: number; chances: Chances };
  readonly tenThousandRectangles: Chances;
  readonly tenThousandExponentials: Chances;
} = JSON.parse(readFileSync(new URL("../reference/hardCases.json", import.meta.url), "utf8"));

const once = (distribution: SourceDistribution): LinearTerm => ({ coefficient: 1, distribution });
const rectangle: SourceDistribution = { shape: "rectangular", halfWidth: 1 };
const [unlimitedBelow, unlimitedAbove] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];

describe("one dominant rectangular source", () => {
  const { halfWidth, standardDeviation, quantile975, chances } = reference.dominantRectangle;
  const terms = [once({ shape: "rectangular", halfWidth }), once({ shape: "normal", standardDeviation })];

  it("has the interval of its own law, not that of a normal (scipy)", () => {
    const [low, high] = linearDistribution(0, terms).interval(0.95, "symmetric");
    expect(high).toBeCloseTo(quantile975, 9);
    expect(low).toBeCloseTo(-quantile975, 9);
    // A normal would say 1.96 · 0.577 = 1.13, more than the source can do.
    expect(high).toBeLessThan(1);
  });

  it("has the chances of its own law (scipy)", () => {
    for (const [z, chance] of chances) {
      expect(linearDistribution(0, terms).cumulative(z), `z = ${z}`).toBeCloseTo(chance, 10);
      expect(linearChance(0, terms, unlimitedBelow, z).chance, `z = ${z}`).toBeCloseTo(chance, 9);
    }
  });
});

// Closed form: the sum of two equal rectangles is a triangle of half-width 2, P(Z > z) = (2 - z)²/8 for z >= 0.
it("two equal rectangular sources are a triangle", () => {
  const distribution = linearDistribution(0, [once(rectangle), once(rectangle)]);
  for (const z of [0, 0.3, 1, 1.9, 2]) {
    expect(1 - distribution.cumulative(z)).toBeCloseTo((2 - z) ** 2 / 8, 13);
    expect(linearChance(0, [once(rectangle), once(rectangle)], -z, z).chance).toBeCloseTo(1 - (2 - z) ** 2 / 4, 12);
  }
  expect(distribution.quantile(0.975)).toBeCloseTo(2 - Math.sqrt(8 * 0.025), 12);
});

// Closed form: t with one degree of freedom is the Cauchy distribution, F(z) = ½ + atan(z)/π; its 97.5 % quantile is the 12.71 of JCGM 100, Table G.2.
it("one degree of freedom is a Cauchy distribution, also as the sum of two", () => {
  const student: SourceDistribution = { shape: "scaledT", scale: 1, degreesOfFreedom: 1 };
  const one = linearDistribution(0, [once(student)]);
  const two = linearDistribution(0, [once(student), once(student)]);
  for (const z of [-40, -1, 0, 0.5, 12.706204736]) {
    expect(one.cumulative(z)).toBeCloseTo(0.5 + Math.atan(z) / Math.PI, 12);
    expect(two.cumulative(2 * z)).toBeCloseTo(0.5 + Math.atan(z) / Math.PI, 10);
  }
  expect(one.quantile(0.975)).toBeCloseTo(Math.tan(0.475 * Math.PI), 8);
});

describe("zero uncertainty", () => {
  const none = [once({ shape: "exponential", mean: 0 }), once({ shape: "curvilinearTrapezoidal", halfWidth: 0, topRatio: 0.5 })];

  it("is a point: within limits that hold it, their ends included, and outside all others", () => {
    expect(linearChance(2, none, 1, 3).chance).toBe(1);
    expect(linearChance(2, none, 2, 3).chance).toBe(1);
    expect(linearChance(2, none, 2.001, 3).chance).toBe(0);
    expect(linearDistribution(2, none).interval(0.95, "shortest")).toEqual([2, 2]);
  });

  it("is a point of the plane: within a radius that reaches it", () => {
    expect(radialChance([3, 4], [], 5).chance).toBe(1);
    expect(radialChance([3, 4], [], 4.999).chance).toBe(0);
    expect(radialChance([0, 0], [], 0).chance).toBe(1);
  });
});

describe("a result at a limit", () => {
  it("lies within with chance one half where all sources are symmetric", () => {
    expect(linearChance(5, [once(rectangle), once({ shape: "normal", standardDeviation: 0.3 })], unlimitedBelow, 5).chance).toBeCloseTo(
      0.5,
      9,
    );
  });

  // Closed form: an exponential lies below its expectation with chance 1 - 1/e.
  it("lies below its expectation with chance 1 - 1/e where one exponential source does it", () => {
    const terms = [once({ shape: "exponential", mean: 2 })];
    expect(linearChance(5, terms, unlimitedBelow, 5).chance).toBeCloseTo(0.632120558828558, 12);
    expect(linearChance(5, terms, 3, unlimitedAbove).chance).toBeCloseTo(1, 12);
    expect(linearChance(5, terms, unlimitedBelow, 3).chance).toBeCloseTo(0, 12);
  });

  it("lies within for certain where the sources end at the limits", () => {
    expect(linearChance(0, [once(rectangle)], -1, 1).chance).toBeCloseTo(1, 12);
    expect(linearChance(1, [once(rectangle)], 0, 2).chance).toBeCloseTo(1, 12);
    expect(linearChance(0, [once(rectangle)], 1, 2).chance).toBeCloseTo(0, 12);
  });
});

describe("ten thousand sources", () => {
  const many = (distribution: SourceDistribution, coefficient: number) =>
    Array.from({ length: 10_000 }, (): LinearTerm => ({ coefficient, distribution }));

  it("rectangles, with and without the whole distribution (scipy)", () => {
    const terms = many(rectangle, Math.sqrt(3 / 10_000));
    const distribution = linearDistribution(0, terms);
    expect(distribution.standardDeviation).toBeCloseTo(1, 12);
    for (const [z, chance] of reference.tenThousandRectangles) {
      expect(distribution.cumulative(z), `z = ${z}`).toBeCloseTo(chance, 9);
      expect(linearChance(0, terms, unlimitedBelow, z).chance, `z = ${z}`).toBeCloseTo(chance, 9);
    }
  });

  it("exponentials, skewed still (scipy)", () => {
    const terms = many({ shape: "exponential", mean: 1 }, 0.01);
    const distribution = linearDistribution(0, terms);
    for (const [z, chance] of reference.tenThousandExponentials) {
      expect(distribution.cumulative(z), `z = ${z}`).toBeCloseTo(chance, 9);
      expect(linearChance(0, terms, unlimitedBelow, z).chance, `z = ${z}`).toBeCloseTo(chance, 9);
    }
  });
});

describe("ten thousand sources of one result", () => {
  const total = sum(
    Array.from({ length: 10_000 }, (_, i) =>
      fromSource({ ...sourceOf(`x${i}`, 0), distribution: { shape: "rectangular", halfWidth: 0.01 } }),
    ),
  );
  // √10 000 · 0.01/√3, JCGM 100:2008, 5.1.2; U with k = 2.
  const u = 1 / Math.sqrt(3);

  it("have the budget of their squares, and its expanded uncertainty", () => {
    const budget = budgetOf(total);
    expect(budget.contributions).toHaveLength(10_000);
    expect(budget.standardUncertainty).toBeCloseTo(u, 12);
    expect(expandedUncertainty(budget)).toMatchObject({ coverageFactor: 2, degreesOfFreedom: Number.POSITIVE_INFINITY });
  });

  // The square of (3 + Z): noncentral chi-square of 1 degree of freedom, mean 9 + u², variance 4 · 9 u² + 2 u⁴ (but for the rectangles' kurtosis, 1e-4).
  it("scatter in trials as they should, through a curved model too", () => {
    const shifted = total.plus(3);
    const model = new TrialModel([{ name: "square", value: shifted.times(shifted), centre: 9, scale: 3 }], 1);
    const tally = [...runBlocks(model, 0, 4)].at(-1);
    const moments = momentsOf(tally?.outputs[0] as OutputTally);
    const deviation = Math.sqrt(36 * u * u + 2 * u ** 4);
    expect(moments.count).toBe(4 * 1024);
    expect(Math.abs(moments.mean - 9 - u * u)).toBeLessThan((5 * deviation) / Math.sqrt(moments.count));
    expect(Math.abs(moments.standardDeviation / deviation - 1)).toBeLessThan(5 / Math.sqrt(moments.count));
  });
});

describe("values just beside where an end of one source meets an end of another", () => {
  // Closed form: the rectangle averages the integral of the arcsine's distribution function, x/2 + (x asin x + √(1 - x²))/π.
  const integral = (x: number) => (x >= 1 ? x : x <= -1 ? 0 : x / 2 + (x * Math.asin(x) + Math.sqrt((1 - x) * (1 + x))) / Math.PI);

  it.each([0.6, 0.02, 1, 3])("arcsine of half-width 1 with a rectangle of half-width %d", (half) => {
    const distribution = linearDistribution(0, [once({ shape: "arcsine", halfWidth: 1 }), once({ shape: "rectangular", halfWidth: half })]);
    for (const corner of [1 - half, 1 + half, half - 1]) {
      for (const beside of [-1e-2, -1e-5, -1e-8, 0, 1e-8, 1e-5, 1e-2]) {
        const z = corner + beside;
        const chance = (integral(z + half) - integral(z - half)) / (2 * half);
        expect(Math.abs(distribution.cumulative(z) - chance), `z = ${corner} + ${beside}`).toBeLessThan(1e-11);
      }
    }
  });
});
