import { describe, expect, it } from "vitest";
import { chiSquareQuantile } from "../../lib/uncertainty/special/chiSquare.ts";
import { fisherUpperTail } from "../../lib/uncertainty/special/fisherF.ts";
import { fisherQuantile } from "../../lib/uncertainty/special/fisherQuantile.ts";
import { normalCumulative } from "../../lib/uncertainty/special/normalCumulative.ts";
import { studentQuantile } from "../../lib/uncertainty/special/studentT.ts";

/** Half a unit of the third decimal, and the table's own rounding. */
const thirdDecimal = 0.00051;

// NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.1: cumulative normal (values from memory, recomputed).
describe("e-Handbook 1.3.6.7.1", () => {
  it.each([
    [0.5, 0.69146],
    [1, 0.84134],
    [1.28, 0.89973],
    [1.96, 0.975],
    [2, 0.97725],
    [2.58, 0.99506],
    [3, 0.99865],
  ])("normal-quantiles: normalCumulative(%d) is %d", (z, chance) => {
    expect(Math.abs(normalCumulative(z) - chance)).toBeLessThanOrEqual(5.0000005e-6);
  });
});

// 1.3.6.7.2: upper critical values of t for 0.90, 0.95, 0.975, 0.99, 0.995 and 0.999 (values from memory, recomputed). The column of 0.999 is
// printed with errors in its last digit (318.313 where the value is 318.309), so it has its own tolerance.
const studentTable: readonly [id: string, degreesOfFreedom: number, critical: readonly number[], toleranceOfLast: number][] = [
  ["hb-t-nu1", 1, [3.078, 6.314, 12.706, 31.821, 63.657, 318.313], 0.006],
  ["hb-t-nu2", 2, [1.886, 2.92, 4.303, 6.965, 9.925, 22.327], 0.0016],
  ["hb-t-nu5", 5, [1.476, 2.015, 2.571, 3.365, 4.032, 5.893], 0.0016],
  ["hb-t-nu8", 8, [1.397, 1.86, 2.306, 2.896, 3.355, 4.501], 0.0016],
  ["hb-t-nu15", 15, [1.341, 1.753, 2.131, 2.602, 2.947, 3.733], 0.0016],
  ["hb-t-nu20", 20, [1.325, 1.725, 2.086, 2.528, 2.845, 3.552], 0.0016],
  ["hb-t-nu40", 40, [1.303, 1.684, 2.021, 2.423, 2.704, 3.307], 0.0016],
  ["hb-t-nu60", 60, [1.296, 1.671, 2, 2.39, 2.66, 3.232], 0.0016],
  ["hb-t-nuinf", Number.POSITIVE_INFINITY, [1.282, 1.645, 1.96, 2.326, 2.576, 3.09], 0.0016],
];

describe("e-Handbook 1.3.6.7.2", () => {
  it.each(studentTable)("%s: studentQuantile(p, %d) has the printed digits %j", (_, degreesOfFreedom, critical, toleranceOfLast) => {
    for (const [k, p] of [0.9, 0.95, 0.975, 0.99, 0.995, 0.999].entries()) {
      expect(Math.abs(studentQuantile(p, degreesOfFreedom) - (critical[k] as number)), `p = ${p}`).toBeLessThanOrEqual(
        k === 5 ? toleranceOfLast : thirdDecimal,
      );
    }
  });
});

// 1.3.6.7.3: upper critical values of F (values from memory, recomputed).
describe("e-Handbook 1.3.6.7.3", () => {
  it.each([
    ["hb-F-1-10-0.05", 1, 10, 0.05, 4.965],
    ["hb-F-2-12-0.05", 2, 12, 0.05, 3.885],
    ["hb-F-5-10-0.05", 5, 10, 0.05, 3.326],
    ["hb-F-10-10-0.05", 10, 10, 0.05, 2.978],
    ["hb-F-5-10-0.01", 5, 10, 0.01, 5.636],
    ["hb-F-10-10-0.01", 10, 10, 0.01, 4.849],
    ["hb-F-5-10-0.1", 5, 10, 0.1, 2.522],
    ["hb-F-10-10-0.1", 10, 10, 0.1, 2.323],
    ["hb-F-10-20-0.05", 10, 20, 0.05, 2.348],
  ])("%s: fisherQuantile(1 - α, %d, %d) for α = %d is %d", (_, numerator, denominator, alpha, critical) => {
    expect(Math.abs(fisherQuantile(1 - alpha, numerator, denominator) - critical)).toBeLessThanOrEqual(thirdDecimal);
    expect(fisherUpperTail(critical - thirdDecimal, numerator, denominator)).toBeGreaterThan(alpha);
    expect(fisherUpperTail(critical + thirdDecimal, numerator, denominator)).toBeLessThan(alpha);
  });
});

// 1.3.6.7.4: critical values of chi-square, upper for 0.90, 0.95, 0.975, 0.99, 0.999 (values from memory, recomputed).
const chiSquareUpper: readonly [id: string, degreesOfFreedom: number, critical: readonly number[]][] = [
  ["hb-chi2-nu1", 1, [2.706, 3.841, 5.024, 6.635, 10.828]],
  ["hb-chi2-nu5", 5, [9.236, 11.07, 12.833, 15.086, 20.515]],
  ["hb-chi2-nu10", 10, [15.987, 18.307, 20.483, 23.209, 29.588]],
  ["hb-chi2-nu20", 20, [28.412, 31.41, 34.17, 37.566, 45.315]],
  ["hb-chi2-nu30", 30, [40.256, 43.773, 46.979, 50.892, 59.703]],
  ["hb-chi2-nu100", 100, [118.498, 124.342, 129.561, 135.807, 149.449]],
];
// The same, lower for 0.10, 0.05, 0.025, 0.01, 0.001 (values from memory, recomputed).
const chiSquareLower: readonly [id: string, degreesOfFreedom: number, critical: readonly number[]][] = [
  ["hb-chi2-low-nu10", 10, [4.865, 3.94, 3.247, 2.558, 1.479]],
  ["hb-chi2-low-nu30", 30, [20.599, 18.493, 16.791, 14.953, 11.588]],
  ["hb-chi2-low-nu100", 100, [82.358, 77.929, 74.222, 70.065, 61.918]],
];

describe("e-Handbook 1.3.6.7.4", () => {
  it.each(chiSquareUpper)("%s: chiSquareQuantile(p, %d) has the printed digits %j", (_, degreesOfFreedom, critical) => {
    for (const [k, p] of [0.9, 0.95, 0.975, 0.99, 0.999].entries()) {
      expect(Math.abs(chiSquareQuantile(p, degreesOfFreedom) - (critical[k] as number)), `p = ${p}`).toBeLessThanOrEqual(thirdDecimal);
    }
  });
  it.each(chiSquareLower)("%s: chiSquareQuantile(1 - p, %d) has the printed digits %j", (_, degreesOfFreedom, critical) => {
    for (const [k, p] of [0.1, 0.05, 0.025, 0.01, 0.001].entries()) {
      expect(Math.abs(chiSquareQuantile(p, degreesOfFreedom) - (critical[k] as number)), `p = ${p}`).toBeLessThanOrEqual(thirdDecimal);
    }
  });
  // Upper-tail values for 0.95, read in the handbook.
  it.each([
    [1, 3.841],
    [2, 5.991],
    [3, 7.815],
    [4, 9.488],
    [5, 11.07],
    [7, 14.067],
    [10, 18.307],
    [20, 31.41],
    [30, 43.773],
    [100, 124.342],
  ])("chi2-95: chiSquareQuantile(0.95, %d) is %d", (degreesOfFreedom, critical) => {
    expect(Math.abs(chiSquareQuantile(0.95, degreesOfFreedom) - critical)).toBeLessThanOrEqual(thirdDecimal);
  });
});
