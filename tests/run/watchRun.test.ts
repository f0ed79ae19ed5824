import { describe, expect, it } from "vitest";
import { chartConstants } from "../../lib/run/chartConstants.ts";
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
