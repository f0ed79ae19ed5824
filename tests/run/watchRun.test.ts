import { describe, expect, it } from "vitest";
import { capabilityOf } from "../../lib/run/capability.ts";
import { chartConstants } from "../../lib/run/chartConstants.ts";
import { cumulativeSums } from "../../lib/run/cumulativeSums.ts";
import { watchRun } from "../../lib/run/watchRun.ts";

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

  // Values that alternate scatter by as much as they move, by their moving range; those that keep for two parts, by 0.3 of the limits' width. About the
  // mean of 1/2 the first twenty lie half a unit below on average, so that the sums grow from the first part on.
  it("sees by sums where the mean has moved, too little for the limits of single values", () => {
    const alternating = watchRun(Array.from({ length: 20 }, (_, i) => (i < 10 ? 0 : 1) + (i % 2 === 0 ? 0.4 : -0.4)));
    expect(alternating.beyond).toEqual([]);
    expect(alternating.moved).toBeUndefined();
    const steady = watchRun(Array.from({ length: 40 }, (_, i) => (i < 20 ? 0 : 1) + (i % 4 < 2 ? 0.3 : -0.3)));
    expect(steady.beyond).toEqual([]);
    expect(steady.moved).toMatchObject({ towards: "down", from: 0 });
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
