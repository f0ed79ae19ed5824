import { afterAll, describe, expect, it } from "vitest";
import { newDocument } from "../../lib/document/newDocument.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { budgetOf } from "../../lib/uncertainty/budget.ts";
import { fitProportionalLine } from "../../lib/uncertainty/proportionalLine.ts";
import { fitStraightLine } from "../../lib/uncertainty/straightLine.ts";
import { cell, column, table } from "../ledger/blocks.ts";
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

  // The same typed into a free table. The place of 500 and its doubt are not NIST's: numpy, from Norris.dat, by (s/b)² (1/n + (y - ȳ)² / (b² Σ(t - t̄)²)).
  it("nist-norris-ledger: the line through two columns has 12 of the certified digits", () => {
    const rows = points("Norris.dat").map(({ at, value }) => [String(at), String(value)]);
    const ledger = [
      { ...table("norris", ["x", "y"], rows), columns: [column("x", { unit: "mm" }), column("y", { unit: "mm" })] },
      cell("intercept", "intercept_of_line(norris_x; norris_y)"),
      cell("slope", "slope_of_line(norris_x; norris_y)"),
      cell("at_500", "value_on_line(norris_x; norris_y; 500 mm)"),
      cell("of_500", "place_on_line(norris_x; norris_y; 500 mm)"),
    ];
    const { own } = evaluateSetup({ ...newDocument(), ledger });
    const budget = (name: string) => {
      const found = own.get(name);
      if (!found?.ok || found.value.kind !== "quantity") throw new Error(`${name}: ${JSON.stringify(found)}`);
      return budgetOf(found.value.value);
    };
    const [intercept, slope] = [budget("intercept"), budget("slope")];
    for (const [quantity, computed, certified] of [
      ["intercept", intercept.value, -0.262323073774029],
      ["slope", slope.value, 1.00211681802045],
      ["u(intercept)", intercept.standardUncertainty, 0.232818234301152],
      ["u(slope)", slope.standardUncertainty, 0.429796848199937e-3],
    ] as const)
      expect(reached.of("Norris in the ledger", quantity, computed, certified), quantity).toBeGreaterThanOrEqual(12);
    for (const [name, value, u] of [
      ["at_500", 500.79608593645315, 0.1515021758001937],
      ["of_500", 499.2055956729419, 0.15110439473550347],
    ] as const) {
      expect(budget(name).value).toBeCloseTo(value, 9);
      expect(budget(name).standardUncertainty).toBeCloseTo(u, 9);
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
