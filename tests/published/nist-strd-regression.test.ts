import { afterAll, describe, expect, it } from "vitest";
import { fitProportionalLine } from "../../lib/uncertainty/proportionalLine.ts";
import { fitStraightLine } from "../../lib/uncertainty/straightLine.ts";
import { DigitsReached, readRows } from "./nistData.ts";

// NIST StRD, linear regression; the files in data/ are NIST's own, certified values in their headers.
const points = (file: string) => readRows(file, 61).map(([value = Number.NaN, at = Number.NaN]) => ({ at, value }));

const reached = new DigitsReached();
afterAll(() => reached.print());

describe("NIST StRD, linear regression", () => {
  it("nist-norris: fitStraightLine(Norris) has 13 of the certified digits", () => {
    const line = fitStraightLine(points("Norris.dat"));
    expect(line.degreesOfFreedom).toBe(34);
    for (const [quantity, computed, certified] of [
      ["intercept", line.intercept, -0.262323073774029],
      ["slope", line.slope, 1.00211681802045],
      ["u(intercept)", line.standardUncertaintyOfIntercept, 0.232818234301152],
      ["u(slope)", line.standardUncertaintyOfSlope, 0.429796848199937e-3],
      ["residual standard deviation", line.residualStandardDeviation, 0.884796396144373],
    ] as const) {
      expect(reached.of("Norris", quantity, computed, certified), quantity).toBeGreaterThanOrEqual(13);
    }
  });

  it("nist-noint1: fitProportionalLine(NoInt1) has 14 of the certified digits", () => {
    const line = fitProportionalLine(points("NoInt1.dat"));
    expect(line.degreesOfFreedom).toBe(10);
    for (const [quantity, computed, certified] of [
      ["slope", line.slope, 2.07438016528926],
      ["u(slope)", line.standardUncertaintyOfSlope, 0.165289256198347e-1],
      ["residual standard deviation", line.residualStandardDeviation, 3.56753034006338],
    ] as const) {
      expect(reached.of("NoInt1", quantity, computed, certified), quantity).toBeGreaterThanOrEqual(14);
    }
  });
});
