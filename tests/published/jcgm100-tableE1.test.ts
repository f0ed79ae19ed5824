import { expect, it } from "vitest";
import { logGamma } from "../../lib/uncertainty/special/logGamma.ts";

// JCGM 100:2008, Table E.1: the standard deviation of s relative to its expectation, in per cent, for n normal observations; in closed form
// √(1 - c²)/c with c = √(2/(n - 1)) Γ(n/2)/Γ((n - 1)/2) (value from memory, recomputed).
it.each([
  [2, 76],
  [3, 52],
  [4, 42],
  [5, 36],
  [10, 24],
  [20, 16],
  [30, 13],
  [50, 10],
])("gum-tabE1: s of %d observations has %d %% relative standard deviation, through logGamma", (n, percent) => {
  const c = Math.sqrt(2 / (n - 1)) * Math.exp(logGamma(n / 2) - logGamma((n - 1) / 2));
  expect(Math.abs((100 * Math.sqrt(1 - c * c)) / c - percent)).toBeLessThanOrEqual(0.5);
});
