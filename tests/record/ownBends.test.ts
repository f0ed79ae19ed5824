import { describe, expect, it } from "vitest";
import { bendInWords } from "../../lib/record/bendInWords.ts";
import { beyondFirstOrderOfOwn } from "../../lib/record/ownBends.ts";
import type { BeyondFirstOrder } from "../../lib/record/studyResults.ts";
import { fromSource, type Uncertain, unary } from "../../lib/uncertainty/uncertain.ts";
import { writerOf } from "../../notebooks/figures/displayUnit.ts";
import { sourceOf } from "../properties/expressions.ts";

const normal = (id: string, estimate: number, standardDeviation: number): Uncertain =>
  fromSource({ ...sourceOf(id, estimate), distribution: { shape: "normal", standardDeviation } });
const bendOf = (value: Uncertain) => beyondFirstOrderOfOwn([value], 1).get(value) as BeyondFirstOrder;

const half = normal("a", 0.2, 0.1);
const square = half.times(half);

describe("beyondFirstOrderOfOwn", () => {
  it("leaves out what is linear and what does not vary", () => {
    expect(beyondFirstOrderOfOwn([half.times(2).plus(1), half.minus(half), normal("b", 1, 0)], 1).size).toBe(0);
  });

  it("finds the square of a normal value by trials where it bends too much: noncentral chi-square", () => {
    // scipy.stats.ncx2.ppf(p, 1, 4) / 100 at p = 0.0227501 and 0.9772499 (scipy 1.17.1).
    const [lower, upper] = [0.000425636, 0.160000001];
    const { symmetric, trials, isTooCurved, check, secondOrder } = bendOf(square);
    expect(isTooCurved).toBe(false);
    expect(trials?.count).toBeGreaterThan(1e5);
    // Four standard errors of the ends: 4 √(0.02275·0.97725/100 352) over the density there (scipy.stats.ncx2.pdf).
    expect(Math.abs(symmetric[0] - lower)).toBeLessThan(0.00007);
    expect(Math.abs(symmetric[1] - upper)).toBeLessThan(0.0028);
    expect(check?.verdict).toBe("does not hold");
    // Var(a²) = 4 μ² σ² + 2 σ⁴, exact for a normal a.
    expect(secondOrder[0]?.ok && secondOrder[0].value.standardUncertainty).toBeCloseTo(Math.sqrt(4 * 0.04 * 0.01 + 2 * 0.0001), 12);
  });

  it("corrects what bends a little, without trials: the square of a value that is well known", () => {
    const { symmetric, trials, distribution } = bendOf(normal("c", 10, 0.1).times(normal("d", 10, 0.1)));
    expect(trials).toBeUndefined();
    expect(distribution.method).toContain("corrected");
    expect(symmetric[0]).toBeLessThan(symmetric[1]);
  });

  it("comes to the same by itself and beside others", () => {
    const product = normal("g", 10, 0.3).times(half);
    expect(beyondFirstOrderOfOwn([square, product, unary("sine", half)], 1).get(product)?.symmetric).toEqual(bendOf(product).symmetric);
  });

  it("says how many trials had no value", () => {
    const root = unary("squareRoot", half);
    // P(a < 0) = Φ(-2) = 0.02275.
    expect(bendOf(root).failedShare).toBeCloseTo(0.02275, 2);
    expect(bendInWords(bendOf(root), writerOf("mm"))).toContain("of the trials the model had no value");
  });
});

it("bendInWords tells u with the terms of second order and the interval by trials, and nothing where first order holds", () => {
  const words = bendInWords(bendOf(square), writerOf({ symbol: "mm²", factor: 1 }));
  expect(words).toContain("first order does not hold here");
  expect(words).toMatch(/by 100352 trials 0.000 to 0.1\d+ mm² holds 95.45 %/);
  expect(words).toContain("u with them is 0.042 mm² in place of 0.040 mm²");
  expect(bendInWords(bendOf(normal("e", 100, 0.001).times(normal("f", 100, 0.001))), writerOf("mm"))).toBeUndefined();
});
