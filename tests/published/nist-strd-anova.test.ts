import { afterAll, describe, expect, it } from "vitest";
import { oneWayAnalysis } from "../../lib/uncertainty/oneWayAnalysis.ts";
import { DigitsReached, readRows } from "./nistData.ts";

// NIST StRD, analysis of variance; the files in data/ are NIST's own, certified values in their headers.
function groupsOf(file: string, unit = 1): readonly (readonly number[])[] {
  const groups = new Map<number, number[]>();
  for (const [group = Number.NaN, value = Number.NaN] of readRows(file, 61)) {
    // A unit of the last decimal makes whole numbers, which doubles hold exactly.
    groups.set(group, [...(groups.get(group) ?? []), unit === 1 ? value : Math.round(value * unit)]);
  }
  return [...groups.values()];
}

const reached = new DigitsReached();
afterAll(() => reached.print());

describe("NIST StRD, analysis of variance", () => {
  // SmLs04 as doubles holds its tenths to 6e-11 only; SiRstv its 0.1 of scatter on 196 to 3e-13.
  it.each([
    ["nist-sirstv", "SiRstv", 1, [4, 20], [5.11462616e-2, 2.1663656e-1, 1.18046237440255], 12],
    ["nist-sirstv, whole numbers", "SiRstv", 1e4, [4, 20], [5.11462616e-2, 2.1663656e-1, 1.18046237440255], 14.5],
    ["nist-smls01", "SmLs01", 1, [8, 180], [1.68, 1.8, 21], 14],
    ["nist-smls04", "SmLs04", 1, [8, 180], [1.68, 1.8, 21], 9],
    ["nist-smls04, whole numbers", "SmLs04", 10, [8, 180], [1.68, 1.8, 21], 14.5],
  ] as const)(
    "%s: oneWayAnalysis(%s in 1/%d) has the certified sums of squares and F",
    (id, dataset, unit, degrees, [between, within, ratio], digits) => {
      const analysis = oneWayAnalysis(groupsOf(`${dataset}.dat`, unit));
      expect([analysis.between.degreesOfFreedom, analysis.within.degreesOfFreedom]).toEqual(degrees);
      for (const [quantity, computed, certified] of [
        ["sum of squares between", analysis.between.sumOfSquares / unit ** 2, between],
        ["sum of squares within", analysis.within.sumOfSquares / unit ** 2, within],
        ["F", analysis.ratio, ratio],
      ] as const) {
        expect(reached.of(id, quantity, computed, certified), quantity).toBeGreaterThanOrEqual(digits);
      }
    },
  );
});
