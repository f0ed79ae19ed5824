import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { linearDistribution } from "../../../lib/uncertainty/linearDistribution.ts";
import { numericalTolerance } from "../../../lib/uncertainty/numericalTolerance.ts";
import type { Source } from "../../../lib/uncertainty/source.ts";
import type { SourceDistribution } from "../../../lib/uncertainty/sourceDistribution.ts";
import { blockSize } from "../../../lib/uncertainty/trials/blockWords.ts";
import { refineLinear } from "../../../lib/uncertainty/trials/refineLinear.ts";
import { runBlocks, runUntilSteady } from "../../../lib/uncertainty/trials/runTrials.ts";
import { sobolDirections } from "../../../lib/uncertainty/trials/sobolWords.ts";
import { tallyDistribution } from "../../../lib/uncertainty/trials/tallyDistribution.ts";
import { readTally, writeTally } from "../../../lib/uncertainty/trials/tallyText.ts";
import { TrialModel } from "../../../lib/uncertainty/trials/trialModel.ts";
import { momentsOf, TrialTally } from "../../../lib/uncertainty/trials/trialTally.ts";
import { fromSource, sum, type Uncertain, unary } from "../../../lib/uncertainty/uncertain.ts";
import { validateFirstOrder } from "../../../lib/uncertainty/validateFirstOrder.ts";
import { sourceOf } from "../../properties/expressions.ts";

const reference = (name: string) =>
  JSON.parse(readFileSync(fileURLToPath(new URL(`../../reference/${name}.json`, import.meta.url)), "utf8"));

const sourceWith = (id: string, distribution: SourceDistribution, estimate = 0): Source => ({ ...sourceOf(id, estimate), distribution });
const value = (id: string, distribution: SourceDistribution, estimate = 0) => fromSource(sourceWith(id, distribution, estimate));
const normal = (standardDeviation: number): SourceDistribution => ({ shape: "normal", standardDeviation });

/** Two results that share sources of every kind. */
function someModel(seed = 5): TrialModel {
  const a = value("a", normal(0.3), 2);
  const b = value("b", { shape: "rectangular", halfWidth: 1 }, -1);
  const c = value("c", { shape: "scaledT", scale: 0.2, degreesOfFreedom: 4 });
  const d = value("d", { shape: "arcsine", halfWidth: 0.5 });
  return new TrialModel(
    [
      { name: "sum", value: sum([a, b, c, d]), centre: 1, scale: 0.8 },
      { name: "product", value: a.times(b), centre: -2, scale: 1.3 },
    ],
    seed,
  );
}

function run(model: TrialModel, from: number, to: number): TrialTally {
  return [...runBlocks(model, from, to)].at(-1) ?? new TrialTally(model);
}

describe("sharding", () => {
  it("any parts, counted by any model of the same results and merged in any order, are one run to the last bit", () => {
    const whole = writeTally(run(someModel(), 0, 12));
    fc.assert(
      fc.property(fc.uniqueArray(fc.integer({ min: 1, max: 11 }), { maxLength: 5 }), fc.infiniteStream(fc.nat()), (cuts, order) => {
        const edges = [0, ...cuts.sort((a, b) => a - b), 12];
        const parts = edges.slice(1).map((to, i) => ({ from: edges[i] as number, to, key: order.next().value as number }));
        const merged = new TrialTally(someModel());
        for (const { from, to } of parts.sort((a, b) => a.key - b.key)) {
          const read = readTally(writeTally(run(someModel(), from, to)));
          if (!read.ok) throw new Error("the tally cannot be read");
          merged.merge(read.value);
        }
        expect(writeTally(merged)).toBe(whole);
      }),
      { numRuns: 10 },
    );
  });

  it("trials of another seed, of another model, or counted already are refused", () => {
    const tally = run(someModel(), 0, 2);
    expect(() => tally.merge(run(someModel(6), 2, 3))).toThrow("same computation");
    expect(() => tally.merge(run(someModel(), 1, 3))).toThrow("not counted yet");
    expect(tally.trials).toBe(2 * blockSize);
  });

  it("a damaged file of trials is refused with the reason", () => {
    const text = writeTally(run(someModel(), 0, 1));
    for (const damaged of [
      "",
      "{}",
      text.slice(0, 100),
      text.replace('"failed":0', '"failed":1'),
      text.replace(/"sum":"[^"]*"/, '"sum":"x"'),
    ])
      expect(readTally(damaged).ok).toBe(false);
  });
});

describe("TrialModel", () => {
  it("trials of a sum have the exact mean, standard deviation and quantiles, within five standard errors", () => {
    const distributions: SourceDistribution[] = [
      normal(1),
      { shape: "rectangular", halfWidth: 2 },
      { shape: "triangular", halfWidth: 1.5 },
      { shape: "trapezoidal", halfWidth: 1, topRatio: 0.4 },
      { shape: "arcsine", halfWidth: 1 },
      { shape: "scaledT", scale: 0.5, degreesOfFreedom: 9 },
    ];
    const exact = linearDistribution(
      0,
      distributions.map((distribution) => ({ coefficient: 1, distribution })),
    );
    const model = new TrialModel(
      [{ name: "y", value: sum(distributions.map((distribution, i) => value(`s${i}`, distribution))), centre: 0, scale: 2 }],
      3,
    );
    const [tally] = run(model, 0, 100).outputs;
    if (tally === undefined) throw new Error("no output");
    const { count, mean, standardDeviation } = momentsOf(tally);
    expect(count).toBe(100 * blockSize);
    // Variance of the t(9) is 9/7 of its scale's square; all others as stated (JCGM 101:2008, 6.4).
    const variance = 1 + 4 / 3 + 2.25 / 6 + (1 + 0.16) / 6 + 0.5 + (0.25 * 9) / 7;
    expect(Math.abs(mean)).toBeLessThan(5 * Math.sqrt(variance / count));
    expect(Math.abs(standardDeviation / Math.sqrt(variance) - 1)).toBeLessThan(5 / Math.sqrt(2 * count));
    const found = tallyDistribution(tally);
    for (const p of [0.001, 0.025, 0.3, 0.5, 0.7, 0.975, 0.999]) {
      const y = exact.quantile(p);
      expect(Math.abs(found.cumulative(y) - p)).toBeLessThan(5 * Math.sqrt((p * (1 - p)) / count) + 1e-5);
      expect(Math.abs(found.quantile(p) - y)).toBeLessThan((5 * Math.sqrt((p * (1 - p)) / count)) / exact.density(y) + 0.005);
    }
    // The shortest interval of a symmetric distribution is the symmetric one.
    const [low, high] = found.interval(0.95, "shortest");
    expect(Math.abs(low - exact.quantile(0.025))).toBeLessThan(0.06);
    expect(Math.abs(high - exact.quantile(0.975))).toBeLessThan(0.06);
  });

  it("trials in which the model has no value are counted and left out, not dropped in silence", () => {
    // √x with x normal about 1 with standard deviation 1: no value where x < 0, chance Φ(-1) = 0.158655 (tables of the normal).
    const root = unary("squareRoot", value("x", normal(1), 1));
    const [tally] = run(new TrialModel([{ name: "root", value: root, centre: 1, scale: 0.5 }], 1), 0, 40).outputs;
    const trials = 40 * blockSize;
    expect(Math.abs((tally?.failed ?? 0) / trials - 0.158655)).toBeLessThan(5 * Math.sqrt((0.158655 * 0.841345) / trials));
    expect(momentsOf(tally as NonNullable<typeof tally>).count).toBe(trials - (tally?.failed ?? 0));
  });

  it("sources that rest on one estimate of their scatter are too wide in the same trials", () => {
    const shared = (id: string): Uncertain =>
      fromSource({
        ...sourceWith(id, { shape: "scaledT", scale: 1, degreesOfFreedom: 6 }),
        degreesOfFreedom: 6,
        varianceEstimate: "pooled",
      });
    const [a, b] = [shared("a"), shared("b")];
    const model = new TrialModel([{ name: "sum", value: a.plus(b), centre: 0, scale: 1.5 }], 9);
    const found = tallyDistribution(run(model, 0, 100).outputs[0] as NonNullable<TrialTally["outputs"][0]>);
    // Their sum is one t with 6 degrees of freedom and scale √2: its 97.5 % quantile is 2.4469 √2 (JCGM 100:2008, Table G.2: 2.45).
    expect(Math.abs(found.quantile(0.975) - 2.4469 * Math.SQRT2)).toBeLessThan(0.06);
  });
});

describe("runUntilSteady", () => {
  // JCGM 101:2008, 7.9.4 and 9.2.2 (values from memory, recomputed): four normals, u = 2.0, 95 % in ± 3.92; δ = 0.05 for two digits.
  it("goes on until every number of the result is steady to the tolerance, and has then reached it", () => {
    const y = sum([1, 2, 3, 4].map((i) => value(`x${i}`, normal(1))));
    const steps = runUntilSteady(new TrialModel([{ name: "y", value: y, centre: 0, scale: 2 }], 2), {
      probability: 0.95,
      digits: 2,
      mostTrials: 3_000_000,
    });
    let step = steps.next();
    while (!step.done) step = steps.next();
    const { isEnough, tally, outputs } = step.value;
    expect(isEnough).toBe(true);
    expect(outputs[0]?.tolerance).toBe(0.05);
    expect(outputs[0]?.reached).toBeLessThanOrEqual(0.05);
    const [low, high] = tallyDistribution(tally.outputs[0] as NonNullable<TrialTally["outputs"][0]>).interval(0.95, "symmetric");
    expect(Math.abs(low + 3.92)).toBeLessThan(0.1);
    expect(Math.abs(high - 3.92)).toBeLessThan(0.1);
  });

  it("ends at the most trials that were allowed and says that they were not enough", () => {
    const steps = runUntilSteady(someModel(), { probability: 0.95, digits: 4, mostTrials: 30_000 });
    let step = steps.next();
    while (!step.done) step = steps.next();
    expect(step.value.isEnough).toBe(false);
    expect(step.value.tally.trials).toBeLessThanOrEqual(30_000);
  });
});

describe("sobolDirections", () => {
  it("makes the points that scipy.stats.qmc.Sobol makes, in all 64 dimensions", () => {
    const { words } = reference("sobol") as { words: number[][] };
    for (let dimension = 0; dimension < 64; dimension++) {
      const directions = sobolDirections(dimension);
      let word = 0;
      words.forEach((point, i) => {
        expect(word >>> 0).toBe(point[dimension]);
        const next = i + 1;
        word ^= directions[31 - Math.clz32(next & -next)] as number;
      });
    }
  });
});

describe("refineLinear", () => {
  interface Case {
    readonly spread: number;
    readonly mean: number;
    readonly standardDeviation: number;
    readonly quantiles: readonly (readonly [number, number])[];
  }
  // y = x² with x normal about 1: non-central chi-square, by scipy.stats.ncx2 (tests/reference/squareOfNormal.py).
  for (const { spread, mean, standardDeviation, quantiles } of (reference("squareOfNormal") as { cases: Case[] }).cases) {
    const y = value("x", normal(spread), 1).power(2);
    const linear = linearDistribution(1, [{ coefficient: 2, distribution: normal(spread) }]);
    const [refined] = refineLinear([{ components: [y], linear }], 4);
    if (refined === undefined) throw new Error("no result");

    it(`of a square whose root has u = ${spread}: mean and standard deviation to second order, quantiles far nearer than first order`, () => {
      // The mean of z² over 1024 even chances with one point somewhere in each has the standard error 2.7e-3 (numpy, by the law of every cell);
      // half of it over four sets, five of those.
      expect(Math.abs(refined.distribution.mean - mean)).toBeLessThan(6.7e-3 * spread ** 2);
      // To first order in u the standard deviation is off by u/2 of the mean of z³, whose standard error over such chances is 1.4e-2 (numpy as above):
      // five of those over four sets are 1.8e-2 u. Scrambled points are more even than that.
      expect(Math.abs(refined.distribution.standardDeviation / standardDeviation - 1)).toBeLessThan(3e-3 * spread);
      for (const [p, exact] of quantiles) {
        const error = Math.abs(refined.distribution.quantile(p) - exact);
        const firstOrder = Math.abs(linear.quantile(p) - exact);
        expect(error).toBeLessThan(Math.max(firstOrder / 3, 2e-4 * 2 * spread));
      }
    });

    it(`of a square whose root has u = ${spread}: tells how far the bend moves the ends, ${(1.96 ** 2 * spread) / 2} standard deviations to second order`, () => {
      // y - L = u² z²: at z = 1.96 that is 3.84 u², of a standard deviation 2 u (closed form).
      // The correction itself is of second order, so it misses about as large a share of the shift as the shift is of the interval.
      const shift = (1.959964 ** 2 * spread) / 2;
      expect(Math.abs(refined.nonlinearity - shift)).toBeLessThan(shift * shift);
      expect(refined.isTooCurved).toBe(spread > 0.06);
    });
  }

  it("leaves the exact distribution of a linear result as it is", () => {
    const y = sum([value("a", normal(1)), value("b", { shape: "rectangular", halfWidth: 2 })]);
    const linear = linearDistribution(0, [
      { coefficient: 1, distribution: normal(1) },
      { coefficient: 1, distribution: { shape: "rectangular", halfWidth: 2 } },
    ]);
    const [refined] = refineLinear([{ components: [y], linear }], 1);
    expect(refined?.nonlinearity).toBeLessThan(1e-9);
    expect(refined?.distribution.quantile(0.975)).toBeCloseTo(linear.quantile(0.975), 9);
  });

  it("leaves the exact distribution of a result whose bend cancels as it is: (a + 1)² - a² = 2 a + 1", () => {
    const a = value("a", normal(0.1));
    const linear = linearDistribution(1, [{ coefficient: 2, distribution: normal(0.1) }]);
    const [refined] = refineLinear([{ components: [a.plus(1).times(a.plus(1)).minus(a.times(a))], linear }], 1);
    expect(refined).toMatchObject({ nonlinearity: 0, scatter: 0, isTooCurved: false, failed: 0 });
    expect(refined?.distribution.quantile(0.9)).toBe(linear.quantile(0.9));
  });

  it("of a square about 0, which has no first order at all, says that it is too curved", () => {
    const [refined] = refineLinear([{ components: [value("x", normal(1), 0).power(2)], linear: linearDistribution(0, []) }], 1);
    expect(refined).toMatchObject({ nonlinearity: Number.POSITIVE_INFINITY, isTooCurved: true });
  });

  it("of a result without a standard deviation, t with 2 degrees of freedom, still sees the bend", () => {
    // y = x + x²/50 with x of t(2): at the upper end of 95 % (4.3027, JCGM 100:2008, Table G.2: 4.30) the bend is 0.37.
    const x = value("x", { shape: "scaledT", scale: 1, degreesOfFreedom: 2 });
    const linear = linearDistribution(0, [{ coefficient: 1, distribution: { shape: "scaledT", scale: 1, degreesOfFreedom: 2 } }]);
    const [refined] = refineLinear([{ components: [x.plus(x.times(x).over(50))], linear }], 1);
    // In units of the normal with the same interval: 4.3027 / 1.96.
    expect(refined?.nonlinearity).toBeGreaterThan(0.1);
    expect(refined?.isTooCurved).toBe(true);
  });
});

describe("validateFirstOrder", () => {
  // JCGM 101:2008, 9.2.3 (values from memory, recomputed): four rectangles of unit variance, first order ± 3.92, whole model ± 3.88;
  // δ = 0.05 for two digits of u = 2.0, so that first order holds; with three digits δ = 0.005 and it does not.
  const firstOrder = { value: 0, standardUncertainty: 2, expandedUncertainty: 1.959964 * 2 };
  it("s1-9.2.3: holds to two digits and not to three; not known where the ends are in doubt", () => {
    expect(validateFirstOrder(firstOrder, [-3.879407, 3.879407], 1e-6, 2)).toMatchObject({ verdict: "holds", tolerance: 0.05 });
    expect(validateFirstOrder(firstOrder, [-3.879407, 3.879407], 1e-6, 3)).toMatchObject({ verdict: "does not hold", tolerance: 0.005 });
    expect(validateFirstOrder(firstOrder, [-3.879407, 3.879407], 0.02, 2).verdict).toBe("not known");
  });
});

describe("numericalTolerance", () => {
  // The examples of JCGM 101:2008, 7.9.2 stand in tests/published; here the carry of rounding, by definition.
  it("follows the exponent of the rounded uncertainty", () => {
    expect(numericalTolerance(0.0996, 2)).toBe(0.005);
    expect(numericalTolerance(0.0994, 2)).toBe(0.0005);
    expect(() => numericalTolerance(0, 2)).toThrow(RangeError);
    expect(() => numericalTolerance(1, 0)).toThrow(RangeError);
  });
});
