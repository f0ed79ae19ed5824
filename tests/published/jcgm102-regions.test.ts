import { describe, expect, it } from "vitest";
import { radialDistribution } from "../../lib/uncertainty/radialDistribution.ts";
import { chiSquareQuantile } from "../../lib/uncertainty/special/chiSquare.ts";
import { gaussLegendre } from "../../lib/uncertainty/special/gaussLegendre.ts";
import { normalCumulative, normalDensity } from "../../lib/uncertainty/special/normalCumulative.ts";

// JCGM 102:2011, 6.5, Table 1: k of the ellipsoidal region of 95 % for m normal results (values from memory, recomputed).
describe("JCGM 102, 6.5, Table 1", () => {
  it.each([
    [1, 1.96],
    [2, 2.45],
    [3, 2.8],
    [4, 3.08],
    [5, 3.33],
    [6, 3.55],
    [7, 3.75],
    [8, 3.94],
    [9, 4.11],
    [10, 4.28],
  ])("s2-6.5-ellipsoid-k: the root of chiSquareQuantile(0.95, %d) is %d", (m, k) => {
    expect(Math.abs(Math.sqrt(chiSquareQuantile(0.95, m)) - k)).toBeLessThanOrEqual(0.005);
  });
});

// JCGM 102:2011, 9.2: Y1 = X1 + X3, Y2 = X2 + X3, all N(0, 1), p = 0.95: k = 2.45 for the ellipse (value from memory, recomputed).
it("s2-additive-normal: radialDistribution of the results along their principal axes has 2.45 at 95 %", () => {
  // (Y1 + Y2)/√6 and (Y1 - Y2)/√2 have unit variance and no covariance.
  const [sum, difference] = [1 / Math.sqrt(6), 1 / Math.sqrt(2)];
  const standard = { shape: "normal", standardDeviation: 1 } as const;
  const ellipse = radialDistribution(
    [0, 0],
    [
      { coefficient: [sum, difference], distribution: standard },
      { coefficient: [sum, -difference], distribution: standard },
      { coefficient: [2 * sum, 0], distribution: standard },
    ],
  );
  expect(Math.abs(ellipse.quantile(0.95) - 2.45)).toBeLessThanOrEqual(0.005);
});

// The square of the same example, k = 2.212 (value from memory, recomputed): given X3, the two results are independent.
it("s2-additive-normal: the square of k = 2.212 holds 95 %, by normalCumulative given X3, and gaussLegendre over X3", () => {
  const chanceWithin = (k: number) => {
    const half = k * Math.SQRT2;
    const { nodes, weights } = gaussLegendre(64);
    return nodes.reduce((sum, node, j) => {
      const x3 = 8 * node;
      const one = normalCumulative(half - x3) - normalCumulative(-half - x3);
      return sum + 8 * (weights[j] as number) * normalDensity(x3) * one * one;
    }, 0);
  };
  expect(chanceWithin(2.212 - 0.0006)).toBeLessThan(0.95);
  expect(chanceWithin(2.212 + 0.0006)).toBeGreaterThan(0.95);
});
