import { describe, expect, it } from "vitest";
import { entryOf } from "../../lib/base/matrix.ts";
import { type Budget, budgetsOf } from "../../lib/uncertainty/budget.ts";
import { correlation, covarianceMatrix } from "../../lib/uncertainty/covariance.ts";
import { coverageFactor } from "../../lib/uncertainty/coverage.ts";
import { normalDiscChance } from "../../lib/uncertainty/normalDiscChance.ts";
import { fromSource } from "../../lib/uncertainty/uncertain.ts";
import { sourceOf } from "../properties/expressions.ts";

// JCGM 102:2011 (values from memory, recomputed).
describe("JCGM 102", () => {
  // 9.2: Y1 = X1 + X3, Y2 = X2 + X3, all N(0, 1): u = 1.414 21 each, r = 0.5, k = 2.45 for the ellipse of 95 %.
  it("s2-additive-normal, jcgm102-ellipse: u = 1.41421 and r = 0.5; the ellipse of k = 2.4477 holds 95 %", () => {
    const [X1, X2, X3] = ["X1", "X2", "X3"].map((id) => fromSource(sourceOf(id, 0, 1))) as [
      ReturnType<typeof fromSource>,
      ReturnType<typeof fromSource>,
      ReturnType<typeof fromSource>,
    ];
    const [Y1, Y2] = [X1.plus(X3), X2.plus(X3)];
    const covariance = covarianceMatrix(budgetsOf([Y1, Y2]));
    expect(Math.sqrt(entryOf(covariance, 0, 0)).toFixed(5)).toBe("1.41421");
    expect(Math.sqrt(entryOf(covariance, 1, 1)).toFixed(5)).toBe("1.41421");
    expect(correlation(...(budgetsOf([Y1, Y2]) as [Budget, Budget]))).toBeCloseTo(0.5, 12);
    // Along its axes, (Y1 + Y2)/√2 and (Y1 - Y2)/√2, the ellipse is a circle in units of √(1 + r) u and √(1 - r) u.
    const axes = covarianceMatrix(budgetsOf([Y1.plus(Y2).over(Math.sqrt(6)), Y1.minus(Y2).over(Math.sqrt(2))]));
    expect([...axes.entries]).toEqual([1, 0, 0, 1].map((value) => expect.closeTo(value, 12)));
    const [xx, xy, , yy] = axes.entries as unknown as [number, number, number, number];
    expect(Math.abs(normalDiscChance([0, 0], [xx, xy, yy], 2.4477) - 0.95)).toBeLessThanOrEqual(2e-5);
  });

  // 6.5.3: hyper-rectangular regions, k of a normal at q = 1 - (1 - p)/m.
  it.each([
    [2, 2.24],
    [3, 2.39],
  ])("s2-6.5-rect-k: %d results have k = %d", (m, k) => {
    expect(Math.abs(coverageFactor(1 - 0.05 / m, Number.POSITIVE_INFINITY) - k)).toBeLessThanOrEqual(0.005);
  });
});

// Circular normal distribution: k = √(-2 ln(1 - p)) (tables; value from memory, recomputed).
describe("circular normal distribution", () => {
  it.each([
    [0.5, 1.1774],
    [0.9, 2.146],
    [0.95, 2.4477],
    [0.99, 3.0349],
    [0.9973, 3.4393],
  ])("circ-k-95-99: normalDiscChance(radius) is %d at %d standard deviations", (p, k) => {
    expect(Math.abs(normalDiscChance([0, 0], [1, 0, 1], k) - p)).toBeLessThanOrEqual(6e-5 * k * (1 - p) + 1e-7);
  });
});
