import { describe, expect, it } from "vitest";
import { budgetOf } from "../../lib/uncertainty/budget.ts";
import { explainDifference } from "../../lib/uncertainty/explainDifference.ts";
import { fromSource, unary } from "../../lib/uncertainty/uncertain.ts";
import { sourceOf } from "../properties/expressions.ts";

describe("explainDifference(before, after)", () => {
  it("tells which source moved a width, and by how much: twice the radius", () => {
    // A width between outside faces is the way between the readings less twice the radius (hand formula).
    const width = (radius: number) =>
      budgetOf(fromSource(sourceOf("gap", 166, 0.004)).minus(fromSource(sourceOf("radius", radius, 0.001)).times(2)));
    const explained = explainDifference(width(3), width(2.991));
    expect(explained.difference).toBeCloseTo(0.018, 12);
    expect(explained.moved.map(({ source: { id }, effect }) => [id, Math.round(effect * 1e9) / 1e9])).toEqual([["radius", 0.018]]);
    expect(explained.remainder).toBeCloseTo(0, 12);
    expect(explained.variances).toEqual([]);
  });

  it("is exact for a square: x² from 2 to 3 is 5", () => {
    const square = (x: number) => {
      const value = fromSource(sourceOf("x", x, 0.1));
      return budgetOf(value.times(value));
    };
    expect(explainDifference(square(2), square(3)).moved[0]?.effect).toBeCloseTo(5, 12);
  });

  it("leaves over what no source accounts for: sin from 0 to 1 by the trapezoidal rule is (1 + cos 1)/2", () => {
    const sine = (x: number) => budgetOf(unary("sine", fromSource(sourceOf("x", x, 0.1))));
    const { remainder } = explainDifference(sine(0), sine(1));
    expect(remainder).toBeCloseTo(Math.sin(1) - (1 + Math.cos(1)) / 2, 12);
  });

  it("adds up to the difference of the variances, source by source", () => {
    const of = (a: number, b: number, c: number) =>
      budgetOf(
        fromSource(sourceOf("a", 1, a))
          .plus(fromSource(sourceOf("b", 1, b)).times(2))
          .plus(c > 0 ? fromSource(sourceOf("c", 0, c)) : 0),
      );
    const { variances, varianceDifference } = explainDifference(of(3, 1, 0), of(1, 1, 2));
    expect(variances.map(({ source: { id }, before, after }) => [id, before, after])).toEqual([
      ["a", 9, 1],
      ["c", 0, 4],
    ]);
    expect(varianceDifference).toBeCloseTo(-4, 12);
  });
});
