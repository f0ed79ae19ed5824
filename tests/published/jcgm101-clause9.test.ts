import { describe, expect, it, vi } from "vitest";
import { budgetOf } from "../../lib/uncertainty/budget.ts";
import { coverageFactor } from "../../lib/uncertainty/coverage.ts";
import type { Distribution } from "../../lib/uncertainty/distribution.ts";
import { linearDistribution } from "../../lib/uncertainty/linearDistribution.ts";
import { secondOrder } from "../../lib/uncertainty/secondOrder.ts";
import type { SourceDistribution } from "../../lib/uncertainty/sourceDistribution.ts";
import { blockSize } from "../../lib/uncertainty/trials/blockWords.ts";
import { runBlocks } from "../../lib/uncertainty/trials/runTrials.ts";
import { tallyDistribution } from "../../lib/uncertainty/trials/tallyDistribution.ts";
import { TrialModel } from "../../lib/uncertainty/trials/trialModel.ts";
import { certain, fromSource, type Uncertain } from "../../lib/uncertainty/uncertain.ts";
import { validateFirstOrder } from "../../lib/uncertainty/validateFirstOrder.ts";
import { sourceOf } from "../properties/expressions.ts";

// Many evaluations a test: not to fail on a busy machine.
vi.setConfig({ testTimeout: 60_000 });

const rootThree = Math.sqrt(3);
const normal: SourceDistribution = { shape: "normal", standardDeviation: 1 };
const even: SourceDistribution = { shape: "rectangular", halfWidth: rootThree };

// JCGM 101:2008, 9.2: Y = X1 + X2 + X3 + X4 (values from memory, recomputed); computed here without trials.
describe("JCGM 101, 9.2, additive model", () => {
  const four = (distribution: SourceDistribution) =>
    linearDistribution(
      0,
      Array.from({ length: 4 }, () => ({ coefficient: 1, distribution })),
    );

  it("jcgm101-9.2.2, s1-9.2.2-normal: four normals have u = 2.0 and 95 % in ± 3.92", () => {
    const { standardDeviation, interval } = four(normal);
    expect(standardDeviation).toBeCloseTo(2.0, 12);
    for (const kind of ["symmetric", "shortest"] as const) {
      const [low, high] = interval(0.95, kind);
      expect(Math.abs(low - -3.92)).toBeLessThanOrEqual(0.005);
      expect(Math.abs(high - 3.92)).toBeLessThanOrEqual(0.005);
    }
  });

  // 9.2.3.3, note: 2 √3 (2 - (3/5)^(1/4)) = 3.879 407.
  it("jcgm101-9.2.3, s1-9.2.3-analytic: four rectangles have u = 2.0 and 95 % in ± 3.879407", () => {
    const { standardDeviation, interval } = four(even);
    expect(standardDeviation).toBeCloseTo(2.0, 12);
    expect(Math.abs(interval(0.95, "symmetric")[1] - 3.88)).toBeLessThanOrEqual(0.005);
    expect(Math.abs(interval(0.95, "shortest")[1] - 3.879407)).toBeLessThanOrEqual(1e-5);
  });

  // 9.2.4: one rectangle of standard deviation 10 dominates: ± 17.0, where the normal assumption says ± 19.9.
  it("s1-9.2.4-dominant-rect: u = 10.1 and 95 % in ± 17.0, against ± 19.9 by the coverage factor of a normal", () => {
    const terms = [normal, normal, normal, { shape: "rectangular", halfWidth: 10 * rootThree } as const];
    const { standardDeviation, interval } = linearDistribution(
      0,
      terms.map((distribution) => ({ coefficient: 1, distribution })),
    );
    expect(Math.abs(standardDeviation - 10.1)).toBeLessThanOrEqual(0.06);
    expect(Math.abs(interval(0.95, "symmetric")[1] - 17.0)).toBeLessThanOrEqual(0.06);
    expect(Math.abs(coverageFactor(0.95, Number.POSITIVE_INFINITY) * standardDeviation - 19.9)).toBeLessThanOrEqual(0.05);
  });
});

const blocks = 60;
const trials = blocks * blockSize;

/** The trials that a study runs, and what it tells of them. */
function propagate(result: Uncertain, count = blocks): { mean: number; u: number; distribution: Distribution } {
  const { value, standardUncertainty } = budgetOf(result);
  // Of a model without a first order, such as a square about 0, the scale is that of its terms of second order.
  const [bend] = standardUncertainty > 0 ? [] : secondOrder([result]);
  const scale = bend?.ok ? bend.value.standardUncertainty : standardUncertainty;
  const model = new TrialModel([{ name: "result", value: result, centre: value, scale }], 101);
  const tally = [...runBlocks(model, 0, count)].at(-1)?.outputs[0];
  if (tally === undefined) throw new Error("expected trials");
  const distribution = tallyDistribution(tally);
  return { mean: distribution.mean, u: distribution.standardDeviation, distribution };
}

const input = (id: string, estimate: number, distribution: SourceDistribution) => fromSource({ ...sourceOf(id, estimate), distribution });

// JCGM 101:2008, 9.3: mass calibration, milligrams and kilograms per cubic metre (values from memory, recomputed; tables 5 and 6).
describe("JCGM 101, 9.3, mass calibration", () => {
  const reference = input("reference", 100_000, { shape: "normal", standardDeviation: 0.05 });
  const added = input("added", 1.234, { shape: "normal", standardDeviation: 0.02 });
  const air = input("air", 1.2, { shape: "rectangular", halfWidth: 0.1 });
  const weight = input("weight", 8000, { shape: "rectangular", halfWidth: 1000 });
  const standard = input("standard", 8000, { shape: "rectangular", halfWidth: 50 });
  const buoyancy = air.minus(1.2).times(certain(1).over(weight).minus(certain(1).over(standard)));
  const deviation = reference.plus(added).times(buoyancy.plus(1)).minus(100_000);

  it("s1-9.3-mass-guf1: to first order 1.2340 with u = 0.0539, 95 % from 1.1285 to 1.3395", () => {
    const { value, standardUncertainty } = budgetOf(deviation);
    const k = coverageFactor(0.95, Number.POSITIVE_INFINITY);
    expect(Math.abs(value - 1.234)).toBeLessThanOrEqual(6e-5);
    expect(Math.abs(standardUncertainty - 0.0539)).toBeLessThanOrEqual(6e-5);
    expect(Math.abs(value - k * standardUncertainty - 1.1285)).toBeLessThanOrEqual(6e-5);
    expect(Math.abs(value + k * standardUncertainty - 1.3395)).toBeLessThanOrEqual(6e-5);
  });

  // Table 6, the framework with terms of second order, and both against the interval of the trials by clause 8 (value from memory, recomputed).
  it("s1-9.3-mass-guf2: with the terms of second order u = 0.0750, 95 % from 1.0870 to 1.3810, which one digit of u validates, and first order not", () => {
    const [found] = secondOrder([deviation]);
    if (!found?.ok) throw new Error("expected terms");
    const { firstOrder, standardUncertainty } = found.value;
    const k = coverageFactor(0.95, Number.POSITIVE_INFINITY);
    expect(Math.abs(standardUncertainty - 0.075)).toBeLessThanOrEqual(6e-5);
    // The ends are printed as from u = 0.0750, which is 0.07504.
    expect(Math.abs(1.234 - k * standardUncertainty - 1.087)).toBeLessThanOrEqual(1e-4);
    expect(Math.abs(1.234 + k * standardUncertainty - 1.381)).toBeLessThanOrEqual(1e-4);
    const printed = [1.0834, 1.3825] as const;
    // The tolerance is printed as 0.005, half a unit of the one digit of the trials' u, 0.08.
    for (const [u, differences, verdict] of [
      [firstOrder, [0.0451, 0.043], "does not hold"],
      [standardUncertainty, [0.0036, 0.0015], "holds"],
    ] as const) {
      const check = validateFirstOrder({ value: 1.234, standardUncertainty: u, expandedUncertainty: k * u }, printed, 0, 1);
      expect(check.tolerance).toBe(0.005);
      expect(check.verdict).toBe(verdict);
      check.differences.forEach((difference, end) => {
        expect(Math.abs(difference - (differences[end] as number))).toBeLessThanOrEqual(1e-4);
      });
    }
  });

  it("jcgm101-9.3, s1-9.3-mass-mcm: trials have 1.2341 and u = 0.0754, shortest 95 % from 1.0834 to 1.3825", () => {
    const { mean, u, distribution } = propagate(deviation);
    const [low, high] = distribution.interval(0.95, "shortest");
    expect(Math.abs(mean - 1.2341)).toBeLessThanOrEqual(0.0008);
    expect(Math.abs(u - 0.0754)).toBeLessThanOrEqual(0.0006);
    expect(Math.abs(low - 1.0834)).toBeLessThanOrEqual(0.0045);
    expect(Math.abs(high - 1.3825)).toBeLessThanOrEqual(0.0045);
  });
});

// JCGM 101:2008, 9.4: comparison loss Y = X1² + X2² in units of 1e-6, u = 0.005 each (values from memory, recomputed; tables 7 and 8).
describe("JCGM 101, 9.4, comparison loss", () => {
  function loss(x1: number, r: number): Uncertain {
    const first = input("first", 0, { shape: "normal", standardDeviation: 0.005 });
    const second = input("second", 0, { shape: "normal", standardDeviation: 0.005 });
    const X1 = first.plus(x1);
    const X2 = first.times(r).plus(second.times(Math.sqrt(1 - r * r)));
    return X1.times(X1).plus(X2.times(X2)).times(1e6);
  }

  it.each([
    ["jcgm101-9.4-x0, s1-9.4-mcm-x000-r0", 0, 0, 50, 50, 0, 150],
    ["jcgm101-9.4-x10, s1-9.4-mcm-x010-r0", 0.01, 0, 150, 112, 0, 367],
    ["s1-9.4-mcm-x000-r9", 0, 0.9, 50, 67, 0, 185],
    ["jcgm101-9.4-r09-x10, s1-9.4-mcm-x010-r9", 0.01, 0.9, 150, 121, 13, 398],
  ])("%s: trials with x1 = %d and r = %d have %d, u = %d, shortest 95 % from %d to %d", (_, x1, r, y, u, low, high) => {
    const found = propagate(loss(x1, r));
    expect(Math.abs(found.mean - y)).toBeLessThanOrEqual(1.5);
    expect(Math.abs(found.u - u)).toBeLessThanOrEqual(1.5);
    const [from, to] = found.distribution.interval(0.95, "shortest");
    expect(Math.abs(from - low)).toBeLessThanOrEqual(5);
    expect(Math.abs(to - high)).toBeLessThanOrEqual(6);
  });

  it.each([
    ["s1-9.4-guf-x000-r0", 0, 0, 0, 0],
    ["s1-9.4-guf-x010-r0", 0.01, 0, 100, 100],
    ["s1-9.4-guf-x000-r9", 0, 0.9, 0, 0],
    ["s1-9.4-guf-x010-r9", 0.01, 0.9, 100, 100],
  ])("%s: to first order x1 = %d and r = %d have %d with u = %d", (_, x1, r, y, u) => {
    const { value, standardUncertainty } = budgetOf(loss(x1, r));
    expect(Math.abs(value - y)).toBeLessThanOrEqual(1.01);
    expect(Math.abs(standardUncertainty - u)).toBeLessThanOrEqual(1.01);
  });

  // Tables 7 and 8, GUM uncertainty framework with higher-order terms: u, and y ± 1.96 u.
  it.each([
    ["s1-9.4-guf-x000-r0", 0, 0, 50, -98, 98],
    ["s1-9.4-guf-x010-r0", 0.01, 0, 112, -119, 319],
    ["s1-9.4-guf-x000-r9", 0, 0.9, 67, -132, 132],
    ["s1-9.4-guf-x010-r9", 0.01, 0.9, 121, -137, 337],
  ])("%s: with the terms of second order x1 = %d and r = %d have u = %d and 95 % from %d to %d", (_, x1, r, u, low, high) => {
    const result = loss(x1, r);
    const [found] = secondOrder([result]);
    if (!found?.ok) throw new Error("expected terms");
    const { standardUncertainty, shift } = found.value;
    const U = coverageFactor(0.95, Number.POSITIVE_INFINITY) * standardUncertainty;
    expect(Math.abs(standardUncertainty - u)).toBeLessThanOrEqual(1.01);
    expect(Math.abs(result.value - U - low)).toBeLessThanOrEqual(1.01);
    expect(Math.abs(result.value + U - high)).toBeLessThanOrEqual(1.01);
    // The expectation of annex F, x1² + 2u², beside the value at the estimates.
    expect(shift).toBeCloseTo(50, 8);
  });

  // Closed form: the sum of the squares of two alike normals about 0 is exponential, F(y) = 1 - exp(-y/50).
  it("trials with x1 = 0 and r = 0 have every chance of the exponential of mean 50, within the error that they state", () => {
    const { distribution } = propagate(loss(0, 0));
    expect(distribution.error).toBeLessThan(0.02);
    for (let y = 0.5; y < 400; y *= 1.3) {
      expect(Math.abs(distribution.cumulative(y) - (1 - Math.exp(-y / 50))), `y = ${y}`).toBeLessThanOrEqual(distribution.error);
    }
  });

  // Annex F: E = x1² + x2² + u1² + u2², u² = 4 x1² u1² + 2 u1⁴ + 2 u2⁴ (+ 4 r² u1² u2²). Formula published, numbers follow: a sanity check.
  it("s1-9.4-moments: trials have the moments in closed form, 150 with 112, and 121 for r = 0.9", () => {
    for (const r of [0, 0.9]) {
      const { mean, u } = propagate(loss(0.01, r));
      const [x, v] = [0.01, 0.005 ** 2];
      const expected = 1e6 * Math.sqrt(4 * x * x * v + 4 * v * v + 4 * r * r * v * v);
      expect(expected).toBeCloseTo(r === 0 ? 112 : 121, 0);
      expect(Math.abs(mean - 150)).toBeLessThanOrEqual((5 * expected) / Math.sqrt(trials));
      expect(Math.abs(u / expected - 1)).toBeLessThanOrEqual(0.02);
    }
  });
});

// JCGM 101:2008, 9.5: gauge block calibration, nanometres and kelvins (values from memory, recomputed; table 11). The full model, not the
// first-order one of JCGM 100, H.1.
describe("JCGM 101, 9.5, gauge block calibration", () => {
  const studentT = (id: string, estimate: number, scale: number, degreesOfFreedom: number) =>
    input(id, estimate, { shape: "scaledT", scale, degreesOfFreedom });
  const rectangular = (id: string, estimate: number, halfWidth: number) => input(id, estimate, { shape: "rectangular", halfWidth });
  /** 6.4.3: a rectangle whose half-width is known to ± d only. */
  const curvilinear = (id: string, halfWidth: number, d: number) =>
    rectangular(`${id}, half-width`, halfWidth, d).times(rectangular(`${id}, place`, 0, 1));

  const nominal = 50_000_000;
  const temperature = input("mean", -0.1, { shape: "normal", standardDeviation: 0.2 }).plus(
    input("cyclic", 0, { shape: "arcsine", halfWidth: 0.5 }),
  );
  const alpha = rectangular("alpha of the standard", 11.5e-6, 2e-6);
  const alphaDifference = curvilinear("difference of alpha", 1e-6, 0.1e-6);
  const temperatureDifference = curvilinear("difference of temperature", 0.05, 0.025);
  const standard = studentT("standard", 50_000_623, 25, 18).times(alpha.times(temperature.minus(temperatureDifference)).plus(1));
  const difference = studentT("difference", 215, 6, 24)
    .plus(studentT("random", 0, 4, 5))
    .plus(studentT("systematic", 0, 7, 8));
  const deviation = standard.plus(difference).over(alpha.plus(alphaDifference).times(temperature).plus(1)).minus(nominal);

  it("jcgm101-9.5, s1-9.5-gauge-mcm: trials have 838 nm and u = 36 nm, shortest 99 % from 745 to 932 nm", () => {
    // Ends of 99 % scatter more than those of 95 %: more trials.
    const { mean, u, distribution } = propagate(deviation, 2 * blocks);
    const [low, high] = distribution.interval(0.99, "shortest");
    expect(Math.abs(mean - 838)).toBeLessThanOrEqual(0.6);
    expect(Math.abs(u - 36)).toBeLessThanOrEqual(0.6);
    expect(Math.abs(low - 745)).toBeLessThanOrEqual(1.6);
    expect(Math.abs(high - 932)).toBeLessThanOrEqual(1.6);
  });

  it("jcgm101-9.5: to first order 838 nm with u = 32 nm, 99 % from 745 to 931 nm", () => {
    const { value, standardUncertainty } = budgetOf(deviation);
    expect(Math.abs(value - 838)).toBeLessThanOrEqual(0.6);
    expect(Math.abs(standardUncertainty - 32)).toBeLessThanOrEqual(0.6);
    // JCGM 100, H.1.6: 16 degrees of freedom, k = 2.92.
    const k = coverageFactor(0.99, 16);
    expect(Math.abs(value - k * 32 - 745)).toBeLessThanOrEqual(1.5);
    expect(Math.abs(value + k * 32 - 931)).toBeLessThanOrEqual(1.5);
  });
});
