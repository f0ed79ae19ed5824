import { expect, it } from "vitest";
import { combination, distanceStack, link } from "../properties/stacks.ts";

// Drake (editor), Dimensioning and Tolerancing Handbook (1999), chapter 9, motor assembly, requirement 6: gap 0.0615, worst case 0.0955,
// root sum square 0.0381, inches (value from memory, recomputed).
const chain: readonly (readonly [sign: number, mean: number, tolerance: number])[] = [
  [-1, 0.3595, 0.0155],
  [1, 0.032, 0.002],
  [1, 0.06, 0.003],
  [1, 0.4305, 0.0075],
  [1, 0.12, 0.005],
  [1, 1.503, 0.007],
  [1, 0.12, 0.005],
  [1, 0.4305, 0.0075],
  [1, 0.45, 0.007],
  [-1, 3.025, 0.006],
  [1, 0.3, 0.03],
];

it("stack-drake-req6: stackOf(the chain) has the gap 0.0615, worst case ± 0.0955, root sum square ± 0.0381", () => {
  const terms = chain.map(([sign, estimate, limit], i) => {
    const distribution = { shape: "normal", standardDeviation: limit / 3 } as const;
    return [sign, link(`link ${i}`, distribution, { estimate, limit })] as const;
  });
  const { deviation, worstCase, rootSumSquare } = distanceStack(combination(0, terms), -1, 1);
  expect(Math.abs(deviation - 0.0615)).toBeLessThanOrEqual(5e-5);
  expect(Math.abs((worstCase.upper - worstCase.lower) / 2 - 0.0955)).toBeLessThanOrEqual(5e-5);
  expect(Math.abs((rootSumSquare.upper - rootSumSquare.lower) / 2 - 0.0381)).toBeLessThanOrEqual(5e-5);
});
