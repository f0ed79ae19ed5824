import { readFileSync } from "node:fs";
import fc from "fast-check";
import { expect, it } from "vitest";
import { normalDiscChance } from "../../lib/uncertainty/normalDiscChance.ts";

interface Reference {
  readonly mean: [number, number];
  readonly covariance: [number, number, number];
  readonly radius: number;
  readonly chance: number;
}

/** tests/reference/normalDiscChance.py: adaptive quadrature with 30 digits (mpmath), clouds up to 300 times as long as wide and 1000 off centre. */
const references: readonly Reference[] = JSON.parse(readFileSync(new URL("../reference/normalDiscChance.json", import.meta.url), "utf8"));

it("normalDiscChance(mean, covariance, radius) is within 1e-11 of mpmath, for long clouds far off centre too", () => {
  for (const { mean, covariance, radius, chance } of references) {
    expect(
      Math.abs(normalDiscChance(mean, covariance, radius) - chance),
      `mean ${mean}, covariance ${covariance}, radius ${radius}`,
    ).toBeLessThan(1e-11);
  }
});
it("normalDiscChance([0, 0], round, r) is Rayleigh's 1 - exp(-r²/2σ²)", () => {
  for (const r of [0.01, 0.5, 2, 3, 7, 20]) expect(normalDiscChance([0, 0], [4, 0, 4], r)).toBeCloseTo(-Math.expm1((-r * r) / 8), 13);
});
it("normalDiscChance(mean, [0, 0, 0], r) is 1 or 0: the point is in or out", () => {
  expect([normalDiscChance([3, 4], [0, 0, 0], 5), normalDiscChance([3, 4], [0, 0, 0], 4.9)]).toEqual([1, 0]);
});
it("normalDiscChance(mean, covariance of rank one, r) is the chance along the line (scipy.stats.norm)", () => {
  // x = 1 + 2Z, y = 1.5: |x| <= 2 within r = 2.5, P(-1.5 <= Z <= 0.5).
  expect(normalDiscChance([1, 1.5], [4, 0, 0], 2.5)).toBeCloseTo(0.6246552600051463, 13);
  expect(normalDiscChance([1, 1.5], [4, 0, 0], 1.4)).toBe(0);
});
it("normalDiscChance(mean, covariance, 0) is 0 and (…, Infinity) is 1", () => {
  expect([normalDiscChance([0, 0], [1, 0, 1], 0), normalDiscChance([0, 0], [1, 0, 1], Number.POSITIVE_INFINITY)]).toEqual([0, 1]);
});
it("normalDiscChance(mean, covariance, radius) does not change when the plane is turned", () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 6, noNaN: true }),
      fc.double({ min: 0, max: 6.3, noNaN: true }),
      fc.double({ min: 0.01, max: 1, noNaN: true }),
      fc.double({ min: 0, max: 6.3, noNaN: true }),
      fc.double({ min: 0.1, max: 9, noNaN: true }),
      (distance, bearing, width, turn, radius) => {
        const at = (angle: number) => {
          const [c, s] = [Math.cos(angle), Math.sin(angle)];
          const covariance = [c * c + width * width * s * s, c * s * (1 - width * width), s * s + width * width * c * c] as const;
          return normalDiscChance([distance * Math.cos(bearing + angle), distance * Math.sin(bearing + angle)], covariance, radius);
        };
        expect(Math.abs(at(turn) - at(0))).toBeLessThan(1e-11);
      },
    ),
    { numRuns: 200 },
  );
});
it("normalDiscChance(mean, covariance, radius) names the argument and the value it rejects", () => {
  expect(() => normalDiscChance([0, 0], [1, 0, 1], -1)).toThrow("radius: expected >= 0, got -1");
  expect(() => normalDiscChance([0, 0], [1, 2, 1], 1)).toThrow("covariance: expected positive semidefinite, got [1,2,1]");
  expect(() => normalDiscChance([Number.NaN, 0], [1, 0, 1], 1)).toThrow("mean, covariance: expected finite");
});
