import { describe, expect, it } from "vitest";
import { conformance } from "../../lib/decision/conformance.ts";
import { capabilityOf } from "../../lib/run/capability.ts";
import { chartConstants } from "../../lib/run/chartConstants.ts";
import { cumulativeSums } from "../../lib/run/cumulativeSums.ts";
import { watchRun } from "../../lib/run/watchRun.ts";
import { coverageFactor } from "../../lib/uncertainty/coverage.ts";
import { linearDistribution } from "../../lib/uncertainty/linearDistribution.ts";
import { oneWayAnalysis } from "../../lib/uncertainty/oneWayAnalysis.ts";
import { summariseRepeats } from "../../lib/uncertainty/repeats.ts";
import { scatterInterval } from "../../lib/uncertainty/scatterInterval.ts";
import { chiSquareQuantile } from "../../lib/uncertainty/special/chiSquare.ts";
import { fisherUpperTail } from "../../lib/uncertainty/special/fisherF.ts";
import { fisherQuantile } from "../../lib/uncertainty/special/fisherQuantile.ts";
import { normalQuantile } from "../../lib/uncertainty/special/normalQuantile.ts";
import { toleranceFactor } from "../../lib/uncertainty/toleranceFactor.ts";
import { readRows } from "./nistData.ts";

// NIST/SEMATECH e-Handbook of Statistical Methods, worked examples (values from memory, recomputed).
describe("e-Handbook, worked examples", () => {
  it("hb-zarr13-ci: 95 % of the mean of 195 readings is 9.258242 to 9.264679, t against 5 is 2611.284 (1.3.5.2)", () => {
    const [count, mean, standardDeviation] = [195, 9.26146, 0.022789];
    const u = standardDeviation / Math.sqrt(count);
    const t = coverageFactor(0.95, count - 1);
    expect(Math.abs(t - 1.9723)).toBeLessThanOrEqual(6e-5);
    expect(Math.abs(u - 0.001632)).toBeLessThanOrEqual(1e-6);
    expect(Math.abs(mean - t * u - 9.258242)).toBeLessThanOrEqual(2e-6);
    expect(Math.abs(mean + t * u - 9.264679)).toBeLessThanOrEqual(2e-6);
    expect(Math.abs((mean - 5) / u - 2611.284)).toBeLessThanOrEqual(0.1);
  });

  // Memory, recomputed: the sums of the twenty values about 325 with k 0.3175 and h 4.1959.
  it("hb-cusum: cumulative sums are 3.01 to 11.99 at values 13 to 17, and beyond h first at the 14th (6.3.2.3)", () => {
    const values = [
      324.925, 324.675, 324.725, 324.35, 325.35, 325.225, 324.125, 324.525, 325.225, 324.6, 324.625, 325.15, 328.325, 327.25, 327.829,
      328.5, 326.675, 327.775, 326.875, 328.35,
    ];
    const { above, seenAt } = cumulativeSums(values, 325, 0.3175, 4.1959);
    for (const [i, expected] of [3.01, 4.94, 7.45, 10.63, 11.99].entries())
      expect(Math.abs((above[12 + i] as number) - expected)).toBeLessThanOrEqual(0.006);
    expect(seenAt).toBe(13);
  });

  // The formulas of 6.1.6 with the numbers of its example: limits 8 and 20, mean 16, s 2, target 14.
  it("hb-cpm: Cp 1, Cpk 0.6667 and, about the target, Cpm 0.70711 (6.1.6)", () => {
    const { potential, index, aboutTarget } = capabilityOf({ mean: 16, standardDeviation: 2, count: 50 }, { lower: 8, upper: 20 }, 14);
    expect(potential).toBe(1);
    expect(Math.abs(index - 0.6667)).toBeLessThanOrEqual(5e-5);
    // Published as 0.70711.
    expect(Math.abs(aboutTarget - Math.SQRT1_2)).toBeLessThanOrEqual(1e-5);
  });

  // Bissell's approximation of 6.1.6, computed: not printed there.
  it("cpk-ci: 20 parts with Cpk 1.33 tell 0.88 to 1.78 at 95 % (6.1.6)", () => {
    const { interval } = capabilityOf({ mean: 0, standardDeviation: 1 / 3.99, count: 20 }, { lower: -1, upper: 1 }, 0);
    expect(Math.abs(interval.lower - 0.88)).toBeLessThanOrEqual(0.0065);
    expect(Math.abs(interval.upper - 1.78)).toBeLessThanOrEqual(0.0065);
  });

  it("hb-cp-ppm: limits 6, 8, 10 and 12 standard deviations apart reject 0.27 %, 64 ppm, 0.6 ppm and 2 ppb (6.1.6)", () => {
    const process = linearDistribution(0, [{ coefficient: 1, distribution: { shape: "normal", standardDeviation: 1 } }]);
    const rejects = [3, 4, 5, 6].map((upper) => conformance(process, { lower: -upper, upper }).specificConsumersRisk);
    for (const [k, [printed, half]] of (
      [
        [2.7e-3, 5e-6],
        [6.4e-5, 1e-6],
        [6e-7, 5e-8],
        [2e-9, 5e-10],
      ] as const
    ).entries())
      expect(Math.abs((rejects[k] as number) - printed)).toBeLessThanOrEqual(half);
  });

  it("hb-jahanmi2-F: F = 1.123037 lies between the critical values 0.7756 and 1.2894 (1.3.5.9)", () => {
    const ratio = (65.54909 / 61.85425) ** 2;
    expect(Math.abs(ratio - 1.123037)).toBeLessThanOrEqual(2e-6);
    expect(Math.abs(fisherQuantile(0.025, 239, 239) - 0.7756)).toBeLessThanOrEqual(6e-5);
    expect(Math.abs(fisherQuantile(0.975, 239, 239) - 1.2894)).toBeLessThanOrEqual(6e-5);
    expect(fisherUpperTail(ratio, 239, 239)).toBeGreaterThan(0.025);
  });

  it("hb-gear-chi2: s = 0.006278908 of 100 gears, T = 0.3903044 against 0.1, critical values 73.361 and 128.422 (1.3.5.8)", () => {
    const { standardDeviation = Number.NaN, degreesOfFreedom } = summariseRepeats(
      readRows("GEAR.DAT", 26).map(([diameter]) => diameter as number),
    );
    expect(degreesOfFreedom).toBe(99);
    // The handbook works in seven digits; the data have 0.00627890488 (recomputed with numpy).
    expect(Math.abs(standardDeviation - 0.006278908)).toBeLessThanOrEqual(5e-9);
    expect(Math.abs(degreesOfFreedom * (standardDeviation / 0.1) ** 2 - 0.3903044)).toBeLessThanOrEqual(2e-6);
    const critical = [chiSquareQuantile(0.025, 99), chiSquareQuantile(0.975, 99)] as const;
    expect(Math.abs(critical[0] - 73.361)).toBeLessThanOrEqual(6e-4);
    expect(Math.abs(critical[1] - 128.422)).toBeLessThanOrEqual(6e-4);
    // The same test read the other way: the stated 0.1 lies outside of the interval of s.
    const [lower, upper] = scatterInterval({ standardDeviation, degreesOfFreedom }, 0.95);
    expect(lower).toBeCloseTo(standardDeviation * Math.sqrt(99 / critical[1]), 14);
    expect(upper).toBeCloseTo(standardDeviation * Math.sqrt(99 / critical[0]), 14);
    expect(upper).toBeLessThan(0.1);
  });

  it("hb-anova-743: sums of squares 27.897, 17.452, F = 9.59 against 3.89 (7.4.3.3, 7.4.3.4)", () => {
    const levels = [
      [6.9, 5.4, 5.8, 4.6, 4.0],
      [8.3, 6.8, 7.8, 9.2, 6.5],
      [8.0, 10.5, 8.1, 6.9, 9.3],
    ];
    const { between, within, ratio } = oneWayAnalysis(levels);
    for (const [computed, printed, tolerance] of [
      [between.sumOfSquares, 27.897, 6e-4],
      [within.sumOfSquares, 17.452, 6e-4],
      [between.sumOfSquares + within.sumOfSquares, 45.349, 6e-4],
      [between.meanSquare, 13.949, 6e-4],
      [within.meanSquare, 1.454, 6e-4],
      [ratio, 9.59, 0.006],
      [fisherQuantile(0.95, 2, 12), 3.89, 0.006],
      [summariseRepeats(levels[0] ?? []).mean, 5.34, 1e-9],
      [summariseRepeats(levels[1] ?? []).mean, 7.72, 1e-9],
      [summariseRepeats(levels[2] ?? []).mean, 8.56, 1e-9],
    ] as const)
      expect(Math.abs(computed - printed)).toBeLessThanOrEqual(tolerance);
  });

  // Howe's approximation, k = z √(ν (1 + 1/n) / χ²): the exact factor is larger by less than a part in two hundred.
  it("hb-tolerance-2s: 43 values hold 90 % with 99 % confidence at 2.217 standard deviations by Howe's formula (7.2.6.3)", () => {
    const z = normalQuantile(0.95);
    const chiSquare = chiSquareQuantile(0.01, 42);
    const howe = z * Math.sqrt((42 * (1 + 1 / 43)) / chiSquare);
    expect(Math.abs(z - 1.645)).toBeLessThanOrEqual(6e-4);
    expect(Math.abs(chiSquare - 23.65)).toBeLessThanOrEqual(6e-4);
    expect(Math.abs(howe - 2.217)).toBeLessThanOrEqual(6e-4);
    expect(Math.abs(toleranceFactor(43, { content: 0.9, confidence: 0.99, sides: "both" }) / howe - 1)).toBeLessThanOrEqual(0.005);
  });

  // Value from memory, recomputed; printed with d2 = 1.128, which is 1.12838.
  it("hb-individuals: ten flow rates have the mean 50.81, the mean moving range 1.8778 and limits at 45.8159 and 55.8041 (6.3.2.2)", () => {
    const { mean, standardDeviation, limits, beyond } = watchRun([49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1]);
    expect(mean).toBeCloseTo(50.81, 12);
    expect(Math.abs(standardDeviation * chartConstants(2).meanRange - 1.8778)).toBeLessThanOrEqual(6e-5);
    expect(limits.upper).toBeCloseTo(55.8041, 2);
    expect(limits.lower).toBeCloseTo(45.8159, 2);
    expect(beyond).toEqual([]);
  });
});
