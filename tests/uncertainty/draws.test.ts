import { describe, expect, it } from "vitest";
import { Draws } from "../../lib/uncertainty/draws.ts";
import { quantileOf } from "../../lib/uncertainty/quantileOf.ts";
import { type SourceDistribution, scaleOf, standardUncertaintyOf } from "../../lib/uncertainty/sourceDistribution.ts";
import { sourceOf } from "../properties/expressions.ts";

const shapes: readonly SourceDistribution[] = [
  { shape: "normal", standardDeviation: 1 },
  { shape: "rectangular", halfWidth: 1 },
  { shape: "triangular", halfWidth: 1 },
  { shape: "trapezoidal", halfWidth: 1, topRatio: 0.4 },
  { shape: "arcsine", halfWidth: 1 },
  { shape: "scaledT", scale: 1, degreesOfFreedom: 9 },
  { shape: "curvilinearTrapezoidal", halfWidth: 1, topRatio: 0.4 },
  { shape: "exponential", mean: 1 },
];

const named = (id: string, distribution: SourceDistribution) => ({ ...sourceOf(id, 0), distribution });

describe("Draws", () => {
  it("unitColumn(source): the same trial is the same number whatever the count of trials", () => {
    for (const distribution of shapes) {
      const few = new Draws(7, 101).unitColumn(named("a", distribution));
      const many = new Draws(7, 1000).unitColumn(named("a", distribution));
      expect([...few]).toEqual([...many.subarray(0, 101)]);
    }
  });

  it("unitColumn(source) keeps no column for ever: the names of many documents do not fill the memory, few are handed out again", () => {
    const even: SourceDistribution = { shape: "rectangular", halfWidth: 1 };
    const draws = new Draws(7, 1000, 150_000);
    const first = draws.unitColumn(named("first", even));
    for (let i = 0; i < 100; i++) draws.unitColumn(named(`few ${i}`, even));
    expect(draws.unitColumn(named("first", even))).toBe(first);
    for (let i = 0; i < 100; i++) draws.unitColumn(named(`more ${i}`, even));
    const again = draws.unitColumn(named("first", even));
    expect(again).not.toBe(first);
    expect(again).toEqual(first);
  });

  it("unitColumn(source) does not depend on the scale, nor on what was drawn before", () => {
    const draws = new Draws(7, 64);
    const wide = draws.unitColumn(named("a", { shape: "rectangular", halfWidth: 0.25 }));
    new Draws(7, 64).unitColumn(named("b", { shape: "rectangular", halfWidth: 1 }));
    expect([...draws.unitColumn(named("a", { shape: "rectangular", halfWidth: 8 }))]).toEqual([...wide]);
  });

  it("unitColumn(source) differs by source and by seed", () => {
    const [normal] = shapes as [SourceDistribution];
    const columns = [
      new Draws(7, 500).unitColumn(named("a", normal)),
      new Draws(7, 500).unitColumn(named("b", normal)),
      new Draws(8, 500).unitColumn(named("a", normal)),
    ];
    columns.forEach((one, i) => {
      for (const other of columns.slice(i + 1)) {
        const correlation = one.reduce((total, value, k) => total + value * (other[k] as number), 0) / 500;
        // Five standard errors of a correlation of independent columns, 1/√n.
        expect(Math.abs(correlation)).toBeLessThan(5 / Math.sqrt(500));
        expect([...one]).not.toEqual([...other]);
      }
    });
  });

  it.each(shapes)(
    "unitColumn($shape) has the mean, the standard deviation and the quantiles of its shape, within five standard errors",
    (distribution) => {
      const trials = 20_000;
      const column = new Draws(20_260_425, trials).unitColumn(named("sample", distribution));
      const mean = column.reduce((sum, value) => sum + value, 0) / trials;
      // A t with nine degrees of freedom has the variance 9/7 (closed form ν/(ν - 2)); all others that of the source.
      const deviation = distribution.shape === "scaledT" ? Math.sqrt(9 / 7) : standardUncertaintyOf(distribution);
      expect(Math.abs(mean)).toBeLessThan((5 * deviation) / Math.sqrt(trials));
      const square = column.reduce((sum, value) => sum + value * value, 0) / trials;
      const fourth = column.reduce((sum, value) => sum + value ** 4, 0) / trials;
      expect(Math.abs(square - deviation ** 2)).toBeLessThan(5 * Math.sqrt((fourth - square ** 2) / trials));
      for (const p of [0.01, 0.1, 0.5, 0.9, 0.99]) {
        const below = column.reduce((count, value) => (value <= quantileOf(distribution, p) ? count + 1 : count), 0) / trials;
        expect(Math.abs(below - p)).toBeLessThan(5 * Math.sqrt((p * (1 - p)) / trials));
      }
    },
  );

  it("scaleOf(distribution) is what the distribution is proportional to", () => {
    expect(shapes.map(scaleOf)).toEqual([1, 1, 1, 1, 1, 1, 1, 1]);
    expect(scaleOf({ shape: "scaledT", scale: 0.4, degreesOfFreedom: 3 })).toBe(0.4);
  });

  it.each([
    [-1, 10, "seed"],
    [1.5, 10, "seed"],
    [2 ** 32, 10, "seed"],
    [1, 0, "trials"],
    [1, Number.NaN, "trials"],
  ])("new Draws(%d, %d) refuses the %s", (seed, trials, name) => {
    expect(() => new Draws(seed, trials)).toThrow(name);
  });
});
