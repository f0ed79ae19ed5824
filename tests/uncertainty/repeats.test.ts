import fc from "fast-check";
import { expect, it } from "vitest";
import { pooledStandardDeviation, summariseRepeats } from "../../lib/uncertainty/repeats.ts";

it("summariseRepeats([x]) knows no scatter", () => {
  expect(summariseRepeats([-412.607])).toEqual({
    count: 1,
    mean: -412.607,
    standardDeviation: undefined,
    standardUncertaintyOfMean: undefined,
    degreesOfFreedom: 0,
    range: 0,
  });
});

it("summariseRepeats(equal values) has a standard deviation of exactly zero", () => {
  expect(summariseRepeats([0.1, 0.1, 0.1])).toMatchObject({ mean: 0.1, standardDeviation: 0, standardUncertaintyOfMean: 0, range: 0 });
  expect(summariseRepeats(Array(1000).fill(-412.607))).toMatchObject({ mean: -412.607, standardDeviation: 0 });
});

// Closed form: values c ± 0.001 in equal numbers have s² = n·1e-6/(n − 1), whatever c; c + 0.001 is typed as the doubles nearest to it.
it("summariseRepeats(values far from zero) loses nothing to their size", () => {
  const { mean, standardDeviation } = summariseRepeats([1e9 + 0.5, 1e9 - 0.5, 1e9 + 0.5, 1e9 - 0.5]);
  expect(mean).toBe(1e9);
  expect(standardDeviation).toBeCloseTo(Math.sqrt(1 / 3), 15);
});

it("summariseRepeats(200 000 values) needs no stack and its order does not matter to the last digits", () => {
  const values = Array.from({ length: 200_000 }, (_, index) => index % 7);
  const summary = summariseRepeats(values);
  const reversed = summariseRepeats([...values].reverse());
  expect(summary.range).toBe(6);
  expect(Math.abs(summary.mean - reversed.mean)).toBeLessThan(1e-15);
});

it.each([
  [[], "values: expected at least one, got none"],
  [[1, Number.NaN], "values: expected finite numbers, got NaN"],
  [[1, Number.POSITIVE_INFINITY], "values: expected finite numbers, got Infinity"],
])("summariseRepeats(%j) rejects what cannot be a reading", (values, message) => {
  expect(() => summariseRepeats(values)).toThrow(message);
});

/** Integers, whose sums JavaScript's big integers hold exactly. */
it("summariseRepeats(values) agrees with exact arithmetic", () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: -1_000_000_000, max: 1_000_000_000 }), { minLength: 2, maxLength: 40 }), (values) => {
      const n = BigInt(values.length);
      const sum = values.reduce((total, value) => total + BigInt(value), 0n);
      // n² (n − 1) s² / n = n Σx² − (Σx)², exactly.
      const scaled = n * values.reduce((total, value) => total + BigInt(value) ** 2n, 0n) - sum * sum;
      const exact = Math.sqrt(Number(scaled) / (values.length * (values.length - 1)));
      const { mean, standardDeviation = Number.NaN } = summariseRepeats(values);
      expect(Math.abs(mean - Number(sum) / values.length)).toBeLessThanOrEqual(Math.max(...values.map(Math.abs)) * 2 ** -52);
      expect(Math.abs(standardDeviation - exact)).toBeLessThanOrEqual(exact * 1e-14);
    }),
    { numRuns: 500 },
  );
});

// JCGM 100:2008, 4.2.4 and H.3.6: s_p² = Σ νᵢ sᵢ² / Σ νᵢ. By hand: {1, 3} has s² = 2 with ν = 1, {10, 11, 12} has s² = 1 with ν = 2;
// (2 + 2)/3.
it("pooledStandardDeviation([[1, 3], [10, 11, 12]]) pools by degrees of freedom", () => {
  const pooled = pooledStandardDeviation([
    [1, 3],
    [10, 11, 12],
  ]);
  expect(pooled?.degreesOfFreedom).toBe(3);
  expect(pooled?.standardDeviation).toBeCloseTo(Math.sqrt(4 / 3), 15);
});

it("pooledStandardDeviation(groups) counts single readings and empty groups for nothing", () => {
  expect(pooledStandardDeviation([[5], [1, 3], []])).toEqual(pooledStandardDeviation([[1, 3]]));
  expect(pooledStandardDeviation([[5], []])).toBeUndefined();
  expect(pooledStandardDeviation([])).toBeUndefined();
});

it("pooledStandardDeviation(one group) is its own standard deviation", () => {
  const group = [-412.607, -412.609, -412.6085];
  expect(pooledStandardDeviation([group])?.standardDeviation).toBeCloseTo(summariseRepeats(group).standardDeviation ?? 0, 15);
});

it("pooledStandardDeviation([[NaN]]) rejects what cannot be a reading, also in a group that tells nothing", () => {
  expect(() => pooledStandardDeviation([[Number.NaN], [1, 2]])).toThrow("values: expected finite numbers, got NaN");
});
