import { describe, expect, it } from "vitest";
import { chartConstants } from "../../lib/run/chartConstants.ts";

// D. C. Montgomery, Introduction to Statistical Quality Control, Appendix VI; ASTM E2587, Table 6: n from 2 to 10 (from memory, recomputed).
const table = {
  "cc-d2": [1.128, 1.693, 2.059, 2.326, 2.534, 2.704, 2.847, 2.97, 3.078],
  "cc-d3": [0.853, 0.888, 0.88, 0.864, 0.848, 0.833, 0.82, 0.808, 0.797],
  "cc-A": [2.121, 1.732, 1.5, 1.342, 1.225, 1.134, 1.061, 1.0, 0.949],
  "cc-A2": [1.88, 1.023, 0.729, 0.577, 0.483, 0.419, 0.373, 0.337, 0.308],
  "cc-B3": [0, 0, 0, 0, 0.03, 0.118, 0.185, 0.239, 0.284],
  "cc-B4": [3.267, 2.568, 2.266, 2.089, 1.97, 1.882, 1.815, 1.761, 1.716],
  "cc-B6": [2.606, 2.276, 2.088, 1.964, 1.874, 1.806, 1.751, 1.707, 1.669],
  // The printed D1 come from rounded d2 and d3: 0.204 for 7 where the exact one is 0.205.
  "cc-D1": [0, 0, 0, 0, 0, 0.204, 0.388, 0.547, 0.687],
  "cc-D3": [0, 0, 0, 0, 0, 0.076, 0.136, 0.184, 0.223],
  "cc-D4": [3.267, 2.574, 2.282, 2.114, 2.004, 1.924, 1.864, 1.816, 1.777],
} as const;

const tolerance = {
  "cc-d2": 0.0005,
  "cc-d3": 0.0005,
  "cc-A": 0.0005,
  "cc-A2": 0.00051,
  "cc-B3": 0.00051,
  "cc-B4": 0.00051,
  "cc-B6": 0.00051,
  "cc-D1": 0.0022,
  "cc-D3": 0.0008,
  "cc-D4": 0.0009,
} as const;

const constants = Array.from({ length: 9 }, (_, i) => chartConstants(i + 2));

function factor(name: keyof typeof table, count: number): number {
  const { meanRange: d2, rangeDeviation: d3, meanDeviation: c4 } = constants[count - 2] as (typeof constants)[number];
  const ofDeviation = 3 * Math.sqrt(1 - c4 * c4);
  const factors = {
    "cc-d2": d2,
    "cc-d3": d3,
    "cc-A": 3 / Math.sqrt(count),
    "cc-A2": 3 / (d2 * Math.sqrt(count)),
    "cc-B3": Math.max(0, 1 - ofDeviation / c4),
    "cc-B4": 1 + ofDeviation / c4,
    "cc-B6": c4 + ofDeviation,
    "cc-D1": Math.max(0, d2 - 3 * d3),
    "cc-D3": Math.max(0, 1 - (3 * d3) / d2),
    "cc-D4": 1 + (3 * d3) / d2,
  };
  return factors[name];
}

describe("constants of control charts", () => {
  it.each(Object.keys(table) as (keyof typeof table)[])("%s comes out of chartConstants(n) as printed", (name) => {
    table[name].forEach((printed, i) => {
      expect(Math.abs(factor(name, i + 2) - printed)).toBeLessThanOrEqual(tolerance[name] + 1e-7);
    });
  });

  // The same tables: c4 as printed.
  it("spc-constants: c4 comes out of chartConstants(n) as printed", () => {
    for (const [i, printed] of [0.7979, 0.8862, 0.9213, 0.94, 0.9515, 0.9594, 0.965, 0.9693, 0.9727].entries())
      expect(Math.abs((constants[i]?.meanDeviation ?? 0) - printed)).toBeLessThanOrEqual(6e-5);
  });

  // Measurement Systems Analysis, 4th edition (values from memory, recomputed): K1 is 1/d2 of 2 and 3 trials, K2 and K3 are 1/d2* of one range,
  // d2* = √(d2² + d3²), of 2 and 3 appraisers and of 2 to 10 parts.
  it("msa-K: the factors of gauge studies follow from chartConstants(n) as printed", () => {
    const ofOneRange = constants.map(({ meanRange, rangeDeviation }) => 1 / Math.hypot(meanRange, rangeDeviation));
    for (const [i, printed] of [0.8862, 0.5908].entries())
      expect(Math.abs(1 / (constants[i]?.meanRange ?? 0) - printed)).toBeLessThanOrEqual(0.00016);
    // biome-ignore lint/suspicious/noApproximativeNumericConstant: the digits as published
    for (const [i, printed] of [0.7071, 0.5231, 0.4467, 0.403, 0.3742, 0.3534, 0.3375, 0.3249, 0.3146].entries())
      expect(Math.abs((ofOneRange[i] ?? 0) - printed)).toBeLessThanOrEqual(0.00016);
  });

  // Of two normal values the range is |N(0, 2)|: d2 = 2/√π, d3 = √(2 - 4/π).
  it("has the closed forms of two values to eleven digits", () => {
    const { meanRange, rangeDeviation } = chartConstants(2);
    expect(meanRange).toBeCloseTo(2 / Math.sqrt(Math.PI), 11);
    expect(rangeDeviation).toBeCloseTo(Math.sqrt(2 - 4 / Math.PI), 8);
  });
});
