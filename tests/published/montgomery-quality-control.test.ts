import { describe, expect, it } from "vitest";
import { combination, distanceStack, link } from "../properties/stacks.ts";

// Montgomery, Introduction to Statistical Quality Control (values from memory, recomputed).
describe("Montgomery, linear combinations", () => {
  // Four-part linkage, limits 11.90 to 12.10: mean 12.0, variance 0.0021, probability 0.97074 (the book rounds z to 2.18).
  it("stack-montgomery-linkage: mean 12.0, variance 0.0021, chance 0.97074", () => {
    const links = [
      [2.0, 0.0004],
      [4.5, 0.0009],
      [3.0, 0.0004],
      [2.5, 0.0004],
    ].map(([estimate = 0, variance = 0], i) => {
      const distribution = { shape: "normal", standardDeviation: Math.sqrt(variance) } as const;
      return [1, link(`link ${i}`, distribution, { estimate })] as const;
    });
    const stack = distanceStack(combination(0, links), 11.9, 12.1);
    expect(stack.deviation).toBeCloseTo(12.0, 12);
    expect((stack.components[0]?.standardUncertainty ?? 0) ** 2).toBeCloseTo(0.0021, 9);
    expect(Math.abs(stack.chance - 0.97074)).toBeLessThanOrEqual(0.0002);
  });
});

const millionths = 1e6;

/** A characteristic within ± 1 with a normal deviation of this capability ratio, its mean off by so many standard deviations. */
function capable(ratio: number, shift = 0) {
  const standardDeviation = 1 / (3 * ratio);
  return distanceStack(combination(shift * standardDeviation, [[1, link("process", { shape: "normal", standardDeviation })]]), -1, 1);
}

describe("Montgomery, process capability and fallout", () => {
  // Parts per million outside, one-sided and two-sided; whole parts printed, some rounded up.
  it.each([
    [0.25, 226628, 453255],
    [0.5, 66807, 133614],
    [0.6, 35931, 71861],
    [0.7, 17865, 35729],
    [0.8, 8198, 16395],
    [0.9, 3467, 6934],
    [1.0, 1350, 2700],
    [1.1, 484, 967],
    [1.2, 159, 318],
    [1.3, 48, 96],
    [1.4, 14, 27],
    [1.5, 4, 7],
    [1.6, 1, 2],
  ])("cp-ppm-montgomery: ratio %d leaves %d ppm on one side and %d ppm on both", (ratio, one, both) => {
    const { chance, distribution } = capable(ratio);
    expect(Math.abs(millionths * distribution.cumulative(-1) - one)).toBeLessThanOrEqual(1);
    expect(Math.abs(millionths * (1 - chance) - both)).toBeLessThanOrEqual(1);
  });

  it.each([
    [1.7, 0.17, 0.34],
    [1.8, 0.03, 0.06],
    [2.0, 0.0009, 0.0018],
  ])("cp-ppm-high: ratio %d leaves %d and %d ppm", (ratio, one, both) => {
    const { chance, distribution } = capable(ratio);
    expect(Math.abs(millionths * distribution.cumulative(-1) - one)).toBeLessThanOrEqual(0.007);
    expect(Math.abs(millionths * (1 - chance) - both)).toBeLessThanOrEqual(0.007);
  });

  // The same with the mean 1.5 standard deviations off, the nearer limit only (also Harry 1988).
  it.each([
    [2, 308537],
    [3, 66807],
    [4, 6210],
    [5, 233],
    [6, 3.4],
  ])("six-sigma-shift: %d standard deviations to the limit, shifted by 1.5, leave %d ppm", (level, outside) => {
    expect(Math.abs(millionths * capable(level / 3, -1.5).distribution.cumulative(-1) - outside)).toBeLessThanOrEqual(1);
  });
});
