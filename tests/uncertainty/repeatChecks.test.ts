import { describe, expect, it } from "vitest";
import { farthestCritical, farthestReading } from "../../lib/uncertainty/farthestReading.ts";
import { harmonicAdjustment } from "../../lib/uncertainty/harmonicAdjustment.ts";
import { judgedDegreesOfFreedom } from "../../lib/uncertainty/judgedDegreesOfFreedom.ts";
import { scatterInterval } from "../../lib/uncertainty/scatterInterval.ts";
import { successiveDifferences } from "../../lib/uncertainty/successiveDifferences.ts";

describe("farthestReading(readings)", () => {
  // By hand: mean 0.2, s = √((4·0.04 + 0.64)/4) = √0.2, distance 0.8/√0.2 = 1.788854 = 4/√5, the largest that five readings can have.
  it("finds the one that lies away from the others, on either side", () => {
    for (const sign of [1, -1]) {
      const found = farthestReading([0, 0, sign, 0, 0]);
      expect(found).toMatchObject({ index: 2, isSuspect: true });
      expect(found.distance).toBeCloseTo(4 / Math.sqrt(5), 14);
    }
  });
  it("has no suspect among readings that spread evenly, or are all equal", () => {
    expect(farthestReading([1, 2, 3, 4, 5]).isSuspect).toBe(false);
    expect(farthestReading([7, 7, 7])).toMatchObject({ distance: 0, isSuspect: false });
  });
  it("compares with half the significance on each side", () => {
    expect(farthestReading([1, 2, 4], 0.1).critical).toBe(farthestCritical(3, 0.05));
  });
  it("names what it rejects", () => {
    expect(() => farthestReading([1, 2])).toThrow("count: expected a whole number of at least 3, got 2");
    expect(() => farthestReading([1, 2, Number.NaN])).toThrow("readings: expected finite numbers, got NaN");
    expect(() => farthestReading([1, 2, 3], 0)).toThrow("significance: expected above 0 and below 1, got 0");
  });
});

describe("successiveDifferences(readings)", () => {
  it("is above 2 for readings that alternate", () => {
    // Four differences of 2 by the sum of squares 4.8.
    expect(successiveDifferences([1, -1, 1, -1, 1])?.ratio).toBeCloseTo(16 / 4.8, 14);
  });
  it("says nothing about readings that are all equal", () => {
    expect(successiveDifferences([3, 3, 3])).toBeUndefined();
  });
  it("names what it rejects", () => {
    expect(() => successiveDifferences([1, 2])).toThrow("readings: expected at least 3, got 2");
    expect(() => successiveDifferences([1, 2, Number.NaN])).toThrow("readings: expected finite numbers, got NaN");
  });
});

it("scatterInterval names what it rejects", () => {
  expect(() => scatterInterval({ standardDeviation: 1, degreesOfFreedom: 4 }, 1)).toThrow(
    "confidence: expected above 0 and below 1, got 1",
  );
  expect(() => scatterInterval({ standardDeviation: -1, degreesOfFreedom: 4 }, 0.95)).toThrow(
    "standardDeviation: expected finite and >= 0, got -1",
  );
  expect(() => scatterInterval({ standardDeviation: 1, degreesOfFreedom: 0 }, 0.95)).toThrow(
    "degreesOfFreedom: expected finite and > 0, got 0",
  );
});
it("harmonicAdjustment names what it rejects", () => {
  expect(() => harmonicAdjustment(1, 0)).toThrow("piece: expected a whole number above 0, got 0");
  expect(() => harmonicAdjustment(Number.NaN, 1)).toThrow("deviation: expected a finite number, got NaN");
});
it("judgedDegreesOfFreedom(0) is Infinity, and names what it rejects", () => {
  expect(judgedDegreesOfFreedom(0)).toBe(Number.POSITIVE_INFINITY);
  expect(() => judgedDegreesOfFreedom(-0.1)).toThrow("relativeUncertainty: expected finite and >= 0, got -0.1");
});
