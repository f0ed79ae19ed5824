import { expect, it } from "vitest";
import { combination, distanceStack, link } from "../properties/stacks.ts";

// Chase, Tolerance allocation methods for designers, ADCATS report 99-6 (1999), shaft and bearing, inches: clearance 0.020 (the printed
// nominals sum to 0.0199), worst case 0.0245, root sum square 0.01108 (value from memory, recomputed).
const chain: readonly (readonly [sign: number, mean: number, tolerance: number])[] = [
  [-1, 0.0505, 0.0015],
  [1, 8.0, 0.008],
  [-1, 0.5093, 0.0025],
  [1, 0.4, 0.002],
  [-1, 7.711, 0.006],
  [1, 0.4, 0.002],
  [-1, 0.5093, 0.0025],
];

const stack = distanceStack(
  combination(
    0,
    chain.map(([sign, estimate, halfWidth], i) => [sign, link(`link ${i}`, { shape: "rectangular", halfWidth }, { estimate })] as const),
  ),
  -1,
  1,
);

it("stack-chase-shaft: stackOf(the chain) has the clearance 0.020, worst case ± 0.0245, root sum square ± 0.01108", () => {
  expect(Math.abs(stack.deviation - 0.02)).toBeLessThanOrEqual(0.000101);
  expect(Math.abs((stack.worstCase.upper - stack.worstCase.lower) / 2 - 0.0245)).toBeLessThanOrEqual(1e-9);
  expect(Math.abs((stack.rootSumSquare.upper - stack.rootSumSquare.lower) / 2 - 0.01108)).toBeLessThanOrEqual(5e-6);
});

// Bender's factor, Benderizing tolerances, Graphic Science (December 1962), on the same stack: T = 1.5 √Σt² = 0.01662. A sanity check:
// the formula is published, the number follows from it.
it("stack-bender-1-5: 1.5 times the root sum square of the same stack is 0.01662", () => {
  expect(Math.abs((1.5 * (stack.rootSumSquare.upper - stack.rootSumSquare.lower)) / 2 - 0.01662)).toBeLessThanOrEqual(1e-5);
});
