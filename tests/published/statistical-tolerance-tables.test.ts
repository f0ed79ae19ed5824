import { describe, expect, it } from "vitest";
import { scatterInterval } from "../../lib/uncertainty/scatterInterval.ts";
import { toleranceFactor } from "../../lib/uncertainty/toleranceFactor.ts";

// ISO 16269-6:2014, annex D, and M. G. Natrella, Experimental Statistics, NBS Handbook 91: one-sided factors, confidence 95 % (values from
// memory, recomputed).
describe("ISO 16269-6, one-sided factors", () => {
  it.each([
    ["tol-1s-iso16269", 0.9, 5, 3.407],
    ["tol-1s-iso16269", 0.9, 10, 2.355],
    ["tol-1s-iso16269", 0.9, 20, 1.926],
    ["tol-1s-iso16269", 0.9, 30, 1.777],
    ["tol-1s-iso16269", 0.9, 50, 1.646],
    ["tol-1s-p95", 0.95, 5, 4.203],
    ["tol-1s-p95", 0.95, 10, 2.911],
    ["tol-1s-p95", 0.95, 20, 2.396],
    ["tol-1s-p95", 0.95, 30, 2.22],
  ])("%s: content %d of %d values has the factor %d", (_, content, count, factor) => {
    expect(Math.abs(toleranceFactor(count, { content, confidence: 0.95, sides: "one" }) - factor)).toBeLessThanOrEqual(0.0016);
  });
});

// Confidence factors √(ν/χ²) of a standard deviation, 95 %, as in many tables (values from memory, recomputed).
it.each([
  [5, 0.599, 2.874],
  [10, 0.688, 1.826],
  [25, 0.781, 1.391],
])("sigma-ci: the standard deviation of %d values lies in %d s to %d s", (count, low, high) => {
  const [lower, upper] = scatterInterval({ standardDeviation: 1, degreesOfFreedom: count - 1 }, 0.95);
  expect(Math.abs(lower - low)).toBeLessThanOrEqual(5.000001e-4);
  expect(Math.abs(upper - high)).toBeLessThanOrEqual(5.000001e-4);
});
