import { expect, it } from "vitest";
import { circleThrough } from "./fits.ts";

// Gander, Golub, Strebel, Least-squares fitting of circles and ellipses, BIT 34 (1994) 558-578, example of section 3, geometric fit
// (seen in part).
it("circle-ggs-geometric: solveFrame(six touches of a bore) has the centre 4.7398, 2.9835 and the radius 4.7142", () => {
  const { x, y, radius } = circleThrough([
    [1, 7],
    [2, 6],
    [5, 8],
    [7, 7],
    [9, 5],
    [3, 7],
  ]);
  expect(Math.abs(x - 4.7398)).toBeLessThanOrEqual(5e-5);
  expect(Math.abs(y - 2.9835)).toBeLessThanOrEqual(5e-5);
  expect(Math.abs(radius - 4.7142)).toBeLessThanOrEqual(5e-5);
});
