import { describe, expect, it } from "vitest";
import { capabilityOf } from "../../lib/run/capability.ts";
import { chartConstants } from "../../lib/run/chartConstants.ts";
import { cumulativeSums } from "../../lib/run/cumulativeSums.ts";
import { watchRun } from "../../lib/run/watchRun.ts";
import { generator, normal } from "../properties/random.ts";

describe("watchRun(values)", () => {
  it("finds the part beyond the limits, the long stretch on one side and the drift", () => {
    const quiet = [0, 1, -1, 0.5, -0.5, 1, -1, 0.2];
    expect(watchRun([...quiet, 9, ...quiet]).beyond).toEqual([8]);
    const drifting = Array.from({ length: 20 }, (_, i) => 0.3 * i + (i % 2 === 0 ? 0.2 : -0.2));
    const run = watchRun(drifting);
    expect(run.drift.perPart).toBeCloseTo(0.3, 1);
    expect(run.drift.chance).toBeLessThan(1e-6);
    expect(run.longestStretch.length).toBeGreaterThanOrEqual(8);
    expect(run.looksAdjusted).toBe(false);
  });

  // The first twenty are 0 on average, the others 1: too little for limits of three standard deviations on either side.
  it("sees by sums from which part on the mean has moved, and by how much", () => {
    const steady = watchRun(Array.from({ length: 40 }, (_, i) => (i < 20 ? 0 : 1) + (i % 4 < 2 ? 0.3 : -0.3)));
    expect(steady.beyond).toEqual([]);
    expect(steady.moved?.from).toBe(20);
    expect(steady.moved?.by).toBeCloseTo(1, 12);
    expect(watchRun(Array.from({ length: 40 }, (_, i) => (i % 4 < 2 ? 0.3 : -0.3))).moved).toBeUndefined();
    expect(watchRun([1, 1, 1, 1, 1, 1]).moved).toBeUndefined();
  });

  it("sees a change where there is none in fewer than two runs of a hundred with 30 parts", () => {
    const random = generator(20_260_425);
    const runs = Array.from({ length: 2000 }, () => watchRun(Array.from({ length: 30 }, () => normal(random))));
    expect(runs.filter(({ moved }) => moved !== undefined).length / runs.length).toBeLessThan(0.02);
  });

  it("refuses sums without room for scatter, and an index without parts, scatter or limits", () => {
    expect(() => cumulativeSums([1, 2], 0, -1, 1)).toThrow(RangeError);
    expect(() => cumulativeSums([1, 2], 0, 0, 0)).toThrow(RangeError);
    const limits = { lower: -1, upper: 1 };
    expect(() => capabilityOf({ mean: 0, standardDeviation: 1, count: 1 }, limits, 0)).toThrow(RangeError);
    expect(() => capabilityOf({ mean: 0, standardDeviation: 0, count: 5 }, limits, 0)).toThrow(RangeError);
    expect(() => capabilityOf({ mean: 0, standardDeviation: 1, count: 5 }, { lower: 1, upper: 1 }, 0)).toThrow(RangeError);
  });

  // By hand: values ±1 in turn have r = -(n-1)/n.
  it("knows a run that was adjusted for by every part", () => {
    const run = watchRun(Array.from({ length: 20 }, (_, i) => (i % 2 === 0 ? 1 : -1)));
    expect(run.neighbours).toBeCloseTo(-0.95, 12);
    expect(run.looksAdjusted).toBe(true);
  });

  it("tells what is left of the setup's error after n parts, σ/√n", () => {
    const run = watchRun([0, 1, 0, 1, 0, 1, 0, 1, 0]);
    expect(run.standardDeviation).toBeCloseTo(1 / chartConstants(2).meanRange, 12);
    expect(run.setupErrorLeft).toBeCloseTo(run.standardDeviation / 3, 12);
  });

  it.each([[[1, 2, 3, 4]], [[1, 2, 3, 4, Number.NaN]]])("refuses %j", (values) => {
    expect(() => watchRun(values)).toThrow(RangeError);
  });
});
