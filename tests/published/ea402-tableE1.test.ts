import { expect, it } from "vitest";
import { coverageFactor } from "../../lib/uncertainty/coverage.ts";
import { normalCumulative } from "../../lib/uncertainty/special/normalCumulative.ts";

/** "95.45 %" means exactly two standard deviations of a normal. */
const probability = 2 * normalCumulative(2) - 1;

// EA-4/02 M:2013, Table E.1 (the same numbers in the edition of 1999; values from memory, recomputed).
it.each([
  [1, 13.97],
  [2, 4.53],
  [3, 3.31],
  [4, 2.87],
  [5, 2.65],
  [6, 2.52],
  [7, 2.43],
  [8, 2.37],
  [10, 2.28],
  [20, 2.13],
  [50, 2.05],
  [Number.POSITIVE_INFINITY, 2],
])("ea402-tabE1: coverageFactor(95.45 %%, %d) is %d", (degreesOfFreedom, k) => {
  expect(Math.abs(coverageFactor(probability, degreesOfFreedom) - k)).toBeLessThanOrEqual(0.005);
});
