import { describe, expect, it } from "vitest";
import { matrixOf } from "../../lib/base/matrix.ts";
import { ellipticalRegion, rectangularRegion } from "../../lib/uncertainty/coverageRegion.ts";
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

// The same two checks through the regions themselves: 6.5.2 and 6.5.3, and the example of 9.2 with its ellipse and its square.
describe("coverage regions", () => {
  it.each([
    [2, 2.24],
    [3, 2.39],
  ])("s2-6.5-rect-k: rectangularRegion of %d results has k_q = %d", (m, k) => {
    const { boundFactor } = rectangularRegion(
      matrixOf(m, m, (i, j) => (i === j ? 1 : 0.2)),
      0.95,
    );
    expect(Math.abs(boundFactor - k)).toBeLessThanOrEqual(0.005);
  });

  it("s2-additive-normal, jcgm102-ellipse: Y1 = X1 + X3 and Y2 = X2 + X3 have k = 2.45 for the ellipse and 2.212 for the square", () => {
    const covariance = matrixOf(2, 2, (i, j) => (i === j ? 2 : 1));
    const ellipse = ellipticalRegion(covariance, 0.95);
    expect(Math.abs(ellipse.factor - 2.4477)).toBeLessThanOrEqual(0.003);
    // Eigenvalues 3 and 1 of the covariance, at 45°.
    expect(ellipse.halfAxes.map((half) => half / ellipse.factor)).toEqual([Math.sqrt(3), 1].map((u) => expect.closeTo(u, 12)));
    expect(ellipse.angle).toBeCloseTo(Math.PI / 4, 12);
    const square = rectangularRegion(covariance, 0.95);
    expect(Math.abs(square.factor - 2.212)).toBeLessThanOrEqual(0.0006);
    expect(square.halfWidths).toEqual([0, 1].map(() => expect.closeTo(square.factor * Math.SQRT2, 12)));
  });

  // Trivariate normal (Maxwell's distribution): chance within k standard deviations (tables; value from memory, recomputed).
  it.each([
    [1, 0.1987],
    [2, 0.7385],
    [3, 0.9707],
  ])("sphere-prob-123: the sphere of k = %d is the region of p = %d", (k, p) => {
    const { factor } = ellipticalRegion(
      matrixOf(3, 3, (i, j) => (i === j ? 1 : 0)),
      p,
    );
    // Half a unit of the last digit of p, by the density of Maxwell's distribution.
    expect(Math.abs(factor - k)).toBeLessThanOrEqual(5e-5 / (Math.sqrt(2 / Math.PI) * k * k * Math.exp((-k * k) / 2)) + 1e-9);
  });
});
