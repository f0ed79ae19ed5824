import { expect, it } from "vitest";
import { lineThrough } from "./fits.ts";

// Pearson, On lines and planes of closest fit, Phil. Mag. 2 (1901) 559-572: a = 5.7857, b = -0.546. He worked by hand; at full precision
// a = 5.78404 and b = -0.545561, hence the tolerance.
it("line-pearson-orthogonal: solveFrame(ten touches of a skewed face) has the intercept 5.7857 and the slope -0.546", () => {
  const x = [0.0, 0.9, 1.8, 2.6, 3.3, 4.4, 5.2, 6.1, 6.5, 7.4];
  const y = [5.9, 5.4, 4.4, 4.6, 3.5, 3.7, 2.8, 2.8, 2.4, 1.5];
  const { intercept, slope } = lineThrough(x.map((value, i) => [value, y[i] as number]));
  expect(Math.abs(intercept - 5.7857)).toBeLessThanOrEqual(0.0025);
  expect(Math.abs(slope - -0.546)).toBeLessThanOrEqual(0.0025);
  expect(intercept).toBeCloseTo(5.78404, 5);
  expect(slope).toBeCloseTo(-0.545561, 6);
});
