import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { oneWayAnalysis, oneWayAnalysisOfSummaries } from "../../lib/uncertainty/oneWayAnalysis.ts";
import { summariseRepeats } from "../../lib/uncertainty/repeats.ts";

/** tests/reference/oneWayAnalysis.py: scipy. */
const reference: readonly { readonly groups: readonly (readonly number[])[]; readonly ratio: number; readonly chance: number }[] =
  JSON.parse(readFileSync(new URL("../reference/oneWayAnalysis.json", import.meta.url), "utf8"));
/** tests/reference/lines.py: exact fractions. */
const { analyses: exact }: { readonly analyses: readonly Analysed[] } = JSON.parse(
  readFileSync(new URL("../reference/lines.json", import.meta.url), "utf8"),
);

interface Analysed {
  readonly groups: readonly (readonly number[])[];
  readonly between: number;
  readonly within: number;
  readonly standardDeviationBetween: number;
  readonly whenGroupsDiffer: { readonly mean: number; readonly standardUncertainty: number };
  readonly whenGroupsAgree: { readonly mean: number; readonly standardUncertainty: number };
}

const unequal = [
  [1, 3],
  [4, 5, 6],
  [2, 2, 3, 3, 5],
];

describe("oneWayAnalysis(groups)", () => {
  it("has the ratio and chance of groups of unequal size, single readings among them (scipy)", () => {
    for (const { groups, ratio, chance } of reference) {
      const analysis = oneWayAnalysis(groups);
      expect(analysis.ratio / ratio).toBeCloseTo(1, 8);
      expect(analysis.chanceOfRatio / chance).toBeCloseTo(1, 8);
    }
  });
  it("has the mean squares, means and uncertainties of exact fractions, of readings far from zero", () => {
    for (const { groups, between, within, standardDeviationBetween, ...means } of exact) {
      const analysis = oneWayAnalysis(groups);
      expect(analysis.between.meanSquare / between).toBeCloseTo(1, 12);
      expect(analysis.within.meanSquare / within).toBeCloseTo(1, 12);
      if (standardDeviationBetween === 0) expect(analysis.standardDeviationBetween).toBe(0);
      else expect(analysis.standardDeviationBetween / standardDeviationBetween).toBeCloseTo(1, 12);
      for (const key of ["whenGroupsDiffer", "whenGroupsAgree"] as const) {
        expect(analysis[key].standardUncertainty / means[key].standardUncertainty).toBeCloseTo(1, 12);
        expect(Math.abs(analysis[key].mean - means[key].mean) / means[key].standardUncertainty).toBeLessThan(1e-9);
      }
    }
  });
  it("takes the mean of the means when groups differ, and the mean of all readings when they agree", () => {
    const { whenGroupsDiffer, whenGroupsAgree } = oneWayAnalysis(unequal);
    expect(whenGroupsDiffer.mean).toBeCloseTo((2 + 5 + 3) / 3, 14);
    expect(whenGroupsAgree.mean).toBeCloseTo(3.4, 14);
    const all = summariseRepeats(unequal.flat());
    expect(whenGroupsAgree.standardUncertainty).toBeCloseTo(all.standardUncertaintyOfMean ?? 0, 14);
    expect(whenGroupsAgree.degreesOfFreedom).toBe(all.degreesOfFreedom);
    expect(whenGroupsDiffer.standardUncertainty).toBeCloseTo(summariseRepeats([2, 5, 3]).standardUncertaintyOfMean ?? 0, 14);
  });
  // Closed form: sizes 2, 3 and 5 have n0 = (10 - 38/10)/2 = 3.1; squares between 2·1.4² + 3·1.6² + 5·0.4² = 12.4, within 2 + 2 + 6 = 10.
  it("splits the variance by (s_a² − s_b²)/n0 for groups of unequal size", () => {
    const { between, within, standardDeviationBetween } = oneWayAnalysis(unequal);
    expect(between.sumOfSquares).toBeCloseTo(12.4, 13);
    expect(within.sumOfSquares).toBeCloseTo(10, 13);
    expect(standardDeviationBetween ** 2).toBeCloseTo((6.2 - 10 / 7) / 3.1, 13);
  });
  it("leaves nothing between groups where the readings within explain all of it", () => {
    expect(
      oneWayAnalysis([
        [1, 5],
        [2, 4],
      ]).standardDeviationBetween,
    ).toBe(0);
  });
  it("moves with the readings", () => {
    const moved = oneWayAnalysis(unequal.map((group) => group.map((reading) => reading + 1000)));
    expect(moved.ratio).toBe(oneWayAnalysis(unequal).ratio);
    expect(moved.whenGroupsAgree.mean).toBeCloseTo(1003.4, 12);
  });
  it("is certain of a difference where nothing scatters within, and says nothing where nothing scatters at all", () => {
    const certain = oneWayAnalysis([
      [1, 1],
      [2, 2],
    ]);
    expect([certain.ratio, certain.chanceOfRatio]).toEqual([Number.POSITIVE_INFINITY, 0]);
    const still = oneWayAnalysis([
      [1, 1],
      [1, 1],
    ]);
    expect([still.ratio, still.chanceOfRatio]).toEqual([Number.NaN, Number.NaN]);
  });
  it("names what it rejects", () => {
    expect(() => oneWayAnalysis([[1, 2]])).toThrow("groups: expected at least two, got 1");
    expect(() => oneWayAnalysis([[1, 2], []])).toThrow("groups[1]: expected at least one reading, got none");
    expect(() => oneWayAnalysis([[1], [2]])).toThrow("groups: expected at least one with two readings or more, got single readings only");
    expect(() => oneWayAnalysis([[1, 2], [Number.NaN]])).toThrow("values: expected finite numbers, got NaN");
  });
});

describe("oneWayAnalysisOfSummaries(groups)", () => {
  it("agrees with the readings", () => {
    const { between, within, ratio } = oneWayAnalysisOfSummaries(unequal.map(summariseRepeats));
    const direct = oneWayAnalysis(unequal);
    expect(between.sumOfSquares).toBeCloseTo(direct.between.sumOfSquares, 13);
    expect(within.sumOfSquares).toBeCloseTo(direct.within.sumOfSquares, 13);
    expect(ratio).toBeCloseTo(direct.ratio, 13);
  });
  it("names what it rejects", () => {
    const group = { count: 2, mean: 1, standardDeviation: 0.1 };
    expect(() => oneWayAnalysisOfSummaries([group, { ...group, count: 1.5 }])).toThrow(
      "groups[1].count: expected a whole number above 0, got 1.5",
    );
    expect(() => oneWayAnalysisOfSummaries([group, { ...group, mean: Number.NaN }])).toThrow(
      "groups[1].mean: expected a finite number, got NaN",
    );
    expect(() => oneWayAnalysisOfSummaries([group, { ...group, standardDeviation: undefined }])).toThrow(
      "groups[1].standardDeviation: expected finite and >= 0, got undefined",
    );
  });
});
