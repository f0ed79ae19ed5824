import { describe, expect, it } from "vitest";
import { newDocument } from "../../lib/document/newDocument.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { budgetOf } from "../../lib/uncertainty/budget.ts";
import { correlation } from "../../lib/uncertainty/covariance.ts";
import { SourceBook } from "../../lib/uncertainty/sourceBook.ts";
import { fitStraightLine } from "../../lib/uncertainty/straightLine.ts";
import { uncertainLine } from "../../lib/uncertainty/uncertainLine.ts";
import { cell, column, table } from "../ledger/blocks.ts";

// JCGM 100:2008, annex H.3: calibration of a thermometer, b(t) = y1 + y2 (t - 20 °C), table H.6 (values from memory, recomputed).
const readings = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.01, 26.511];
const corrections = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.16];
const line = fitStraightLine(
  readings.map((at, k) => ({ at, value: corrections[k] as number })),
  20,
);
const curve = uncertainLine(line, { id: "correction", label: "the correction", family: "process" }, new SourceBook());

describe("JCGM 100, H.3", () => {
  it("line-gum-h3: y1 = -0.1712 with 0.0029, y2 = 0.00218 with 0.00067, r = -0.930, s = 0.0035 (H.3.3)", () => {
    for (const [computed, printed, tolerance] of [
      [line.intercept, -0.1712, 5e-5],
      [line.slope, 0.00218, 5e-6],
      [line.residualStandardDeviation, 0.0035, 5e-5],
      [line.standardUncertaintyOfIntercept, 0.0029, 5e-5],
      [line.standardUncertaintyOfSlope, 0.00067, 5e-6],
      [line.correlation, -0.93, 5e-4],
    ] as const)
      expect(Math.abs(computed - printed)).toBeLessThanOrEqual(tolerance);
    expect(line.degreesOfFreedom).toBe(9);
  });

  it("gum-h3-table-pred: the predicted corrections and differences are those of table H.6", () => {
    const predicted = [-0.1679, -0.1668, -0.1657, -0.1646, -0.1635, -0.1625, -0.1614, -0.1603, -0.1592, -0.1581, -0.157];
    const left = [-0.0031, -0.0022, -0.0003, 0.0056, -0.0005, -0.0025, 0.0054, 0.0033, 0.0002, -0.0029, -0.003];
    for (const [k, at] of readings.entries()) {
      expect(Math.abs(curve.valueAt(at).value - (predicted[k] as number))).toBeLessThanOrEqual(6e-5);
      expect(Math.abs((line.residuals[k] as number) - (left[k] as number))).toBeLessThanOrEqual(6e-5);
    }
  });

  it("line-gum-h3, gum-h3-predict: the correction at 30 °C is -0.1494 with 0.0041 (H.3.4, H.15)", () => {
    const { value, standardUncertainty } = budgetOf(curve.valueAt(30));
    expect(Math.abs(value - -0.1494)).toBeLessThanOrEqual(5.00001e-5);
    expect(Math.abs(standardUncertainty - 0.0041)).toBeLessThanOrEqual(5.00001e-5);
  });

  // 0.0073 follows from the printed uncertainties of y1 and y2 without their covariance.
  it("gum-h3-two-methods: 0.0041 at 30 °C with the correlation of intercept and slope, 0.0073 without", () => {
    const way = 30 - line.reference;
    const u1 = line.standardUncertaintyOfIntercept;
    const u2 = way * line.standardUncertaintyOfSlope;
    const correlated = Math.sqrt(u1 ** 2 + u2 ** 2 + 2 * line.correlation * u1 * u2);
    expect(Math.abs(correlated - 0.0041)).toBeLessThanOrEqual(5e-5);
    expect(correlated).toBeCloseTo(budgetOf(curve.valueAt(30)).standardUncertainty, 14);
    expect(Math.abs(Math.hypot(u1, u2) - 0.0073)).toBeLessThanOrEqual(1.5e-4);
  });

  it("H.3: the sources of the line give back intercept, slope and their correlation", () => {
    const intercept = curve.valueAt(20);
    expect(intercept.value).toBeCloseTo(line.intercept, 14);
    expect(budgetOf(intercept).standardUncertainty).toBeCloseTo(line.standardUncertaintyOfIntercept, 14);
    expect(budgetOf(curve.slope).standardUncertainty).toBeCloseTo(line.standardUncertaintyOfSlope, 14);
    expect(correlation(budgetOf(intercept), budgetOf(curve.slope))).toBeCloseTo(line.correlation, 12);
  });

  // H.3.5: with the reference at the mean reading, intercept and slope are not correlated.
  it("H.3.5: the reference 24.0085 °C leaves y1 = -0.1625 with 0.0011 and no correlation", () => {
    const centred = fitStraightLine(
      readings.map((at, k) => ({ at, value: corrections[k] as number })),
      24.0085,
    );
    expect(Math.abs(centred.intercept - -0.1625)).toBeLessThanOrEqual(5e-5);
    expect(Math.abs(centred.standardUncertaintyOfIntercept - 0.0011)).toBeLessThanOrEqual(5e-5);
    expect(Math.abs(centred.correlation)).toBeLessThanOrEqual(1e-4);
  });

  // The same through the ledger, as a person types it: table H.6 in two columns, temperatures as differences from 0 °C and less the reference of 20 °C.
  describe("typed into a free table", () => {
    const thermometer = {
      ...table(
        "thermometer",
        ["reading", "correction"],
        readings.map((at, k) => [String(at), String(corrections[k])]),
      ),
      columns: [
        column("reading", { unit: "K" }),
        column("correction", { unit: "K" }),
        column("way", { unit: "K", formula: "reading - 20 K" }),
      ],
    };
    const { own, problems } = evaluateSetup({
      ...newDocument(),
      ledger: [
        thermometer,
        cell("at_30", "value_on_line(thermometer_reading; thermometer_correction; 30 K)"),
        cell("slope", "slope_of_line(thermometer_way; thermometer_correction)"),
        cell("intercept", "intercept_of_line(thermometer_way; thermometer_correction)"),
        cell("back", "place_on_line(thermometer_way; thermometer_correction; at_30)"),
        cell("centred", "value_on_line(thermometer_reading; thermometer_correction; 24.0085 K)"),
      ],
    });
    const budget = (name: string) => {
      const found = own.get(name);
      if (!found?.ok || found.value.kind !== "quantity") throw new Error(`${name}: ${JSON.stringify(found)}`);
      return budgetOf(found.value.value);
    };

    it.each([
      ["at_30", -0.1494, 5.00001e-5, 0.0041, 5.00001e-5],
      ["intercept", -0.1712, 5e-5, 0.0029, 5e-5],
      ["slope", 0.00218, 5e-6, 0.00067, 5e-6],
      ["centred", -0.1625, 5e-5, 0.0011, 5e-5],
    ])("gum-h3-ledger: %s is %d with %d (H.3.3 to H.3.5)", (name, value, valueTolerance, u, tolerance) => {
      expect(problems.filter(({ at }) => at.startsWith("ledger"))).toEqual([]);
      const found = budget(name);
      expect(Math.abs(found.value - value)).toBeLessThanOrEqual(valueTolerance);
      expect(Math.abs(found.standardUncertainty - u)).toBeLessThanOrEqual(tolerance);
      expect(found.contributions.every(({ source }) => source.degreesOfFreedom === 9)).toBe(true);
    });

    it("gum-h3-ledger: intercept and slope are correlated by -0.930 (H.3.3)", () => {
      expect(Math.abs(correlation(budget("intercept"), budget("slope")) - -0.93)).toBeLessThanOrEqual(5e-4);
    });
  });
});
