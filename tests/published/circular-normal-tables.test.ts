import { expect, it } from "vitest";
import { radialDistribution } from "../../lib/uncertainty/radialDistribution.ts";
import { chiSquareCumulative } from "../../lib/uncertainty/special/chiSquare.ts";
import { normalCumulative } from "../../lib/uncertainty/special/normalCumulative.ts";

const standard = { shape: "normal", standardDeviation: 1 } as const;
const round = radialDistribution(
  [0, 0],
  [
    { coefficient: [1, 0], distribution: standard },
    { coefficient: [0, 1], distribution: standard },
  ],
);

// One, two and three standard deviations of a normal (tables; values from memory, recomputed).
it.each([
  [1, 0.6827],
  [2, 0.9545],
  [3, 0.9973],
])("normal-1d-123: 2 normalCumulative(%d) - 1 is %d", (k, p) => {
  expect(Math.abs(2 * normalCumulative(k) - 1 - p)).toBeLessThanOrEqual(5.0000005e-5);
});

// Circular normal distribution, k = √(-2 ln(1 - p)) (tables; values from memory, recomputed).
it.each([
  [0.5, 1.1774],
  [0.9, 2.146],
  [0.95, 2.4477],
  [0.99, 3.0349],
  [0.9973, 3.4393],
])("circ-k-95-99: radialDistribution(round normal).quantile(%d) is %d", (p, k) => {
  expect(Math.abs(round.quantile(p) - k)).toBeLessThanOrEqual(6e-5);
});

// Spherical normal distribution (Maxwell), chi-square with three degrees of freedom (tables; values from memory, recomputed).
it.each([
  [1, 0.1987],
  [2, 0.7385],
  [3, 0.9707],
])("sphere-prob-123: chiSquareCumulative(k², 3) for k = %d is %d", (k, p) => {
  expect(Math.abs(chiSquareCumulative(k * k, 3) - p)).toBeLessThanOrEqual(5.0000005e-5);
});

// Rayleigh distribution: mean σ√(π/2), standard deviation σ√(2 - π/2), root mean square σ√2 (closed form, recomputed).
it("rayleigh-moments: radialDistribution(round normal) has mean 1.2533, standard deviation 0.6551 and root mean square 1.4142", () => {
  expect(Math.abs(round.mean - 1.2533)).toBeLessThanOrEqual(5e-5);
  expect(Math.abs(round.standardDeviation - 0.6551)).toBeLessThanOrEqual(5e-5);
  expect(Math.hypot(round.mean, round.standardDeviation).toFixed(4)).toBe("1.4142");
});
