import { expect, it } from "vitest";
import { circleThrough } from "./fits.ts";

// Gruntz, Finding the best fit circle (1990); also in Späth, Orthogonal least squares fitting by circles (1996); geometric fit
// (value from memory, recomputed).
it("circle-gruntz-geometric: solveFrame(eight touches of a bore) has the centre 3.04324, 0.74568 and the radius 4.10586", () => {
  const { x, y, radius } = circleThrough([
    [0.7, 4.0],
    [3.3, 4.7],
    [5.6, 4.0],
    [7.5, 1.3],
    [6.4, -1.1],
    [4.4, -3.0],
    [0.3, -2.5],
    [-1.1, 1.3],
  ]);
  expect(Math.abs(x - 3.04324)).toBeLessThanOrEqual(5e-6);
  expect(Math.abs(y - 0.74568)).toBeLessThanOrEqual(5e-6);
  expect(Math.abs(radius - 4.10586)).toBeLessThanOrEqual(5e-6);
});
