import { describe, expect, it } from "vitest";
import { budgetOf, byFamily } from "../../lib/uncertainty/budget.ts";
import { SourceBook } from "../../lib/uncertainty/sourceBook.ts";
import { fromSource, type Uncertain, unary } from "../../lib/uncertainty/uncertain.ts";
import { sourceOf } from "../properties/expressions.ts";

describe("budgetOf", () => {
  it("budgetOf(result) sorts by effect and signs it; the reach is the limit, or the half-width, or endless", () => {
    const a = fromSource({ ...sourceOf("a", 0, 0.002), limit: 0.005 });
    const b = fromSource({ ...sourceOf("b", 0), distribution: { shape: "rectangular", halfWidth: 0.006 } });
    const c = fromSource(sourceOf("c", 0, 0.001));
    const { contributions } = budgetOf(a.times(-2).plus(b.times(2)).plus(c));
    expect(contributions.map(({ source, sensitivity }) => [source.id, sensitivity])).toEqual([
      ["b", 2],
      ["a", -2],
      ["c", 1],
    ]);
    expect(contributions.map(({ reach }) => reach)).toEqual([0.012, 0.01, Number.POSITIVE_INFINITY]);
    expect(contributions[1]?.amount).toBeCloseTo(-0.004, 15);
  });

  it("budgetOf(result that is not finite) throws rather than showing a number", () => {
    const zero = fromSource(sourceOf("x", 0));
    expect(() => budgetOf(zero.plus(1).over(zero))).toThrow(RangeError);
    expect(() => budgetOf(unary("squareRoot", zero))).toThrow(RangeError);
  });

  it("budget.magnitude() is the budget of the result with the other sign where it is below zero, and itself elsewhere", () => {
    const result = fromSource(sourceOf("a", 1, 0.003))
      .times(2)
      .minus(fromSource(sourceOf("b", 5, 0.004)));
    const [found, expected] = [budgetOf(result).magnitude(), budgetOf(result.times(-1))];
    expect(found.value).toBe(3);
    expect(found.standardUncertainty).toBeCloseTo(expected.standardUncertainty, 15);
    expect(found.contributions).toEqual(expected.contributions);
    expect(found.magnitude()).toBe(found);
  });

  it("byFamily(budget) adds squares within a family and leaves empty ones out", () => {
    const of = (id: string, family: "machine" | "part", u: number): Uncertain => fromSource({ ...sourceOf(id, 0, u), family });
    const families = byFamily(
      budgetOf(
        of("a", "part", 3)
          .plus(of("b", "machine", 1))
          .plus(of("c", "part", 4)),
      ),
    );
    expect(families).toEqual([
      { family: "machine", standardUncertainty: 1 },
      { family: "part", standardUncertainty: 5 },
    ]);
  });
});

describe("SourceBook", () => {
  const entry = {
    id: "r",
    label: "r",
    family: "part" as const,
    distribution: { shape: "normal" as const, standardDeviation: 1 },
    evidence: { kind: "stated" as const },
  };

  it("value(entry) is one source however often it is asked for", () => {
    const book = new SourceBook();
    expect(book.value(entry)).toBe(book.value(entry));
    expect(budgetOf(book.value(entry).minus(book.value(entry))).standardUncertainty).toBe(0);
  });

  it("value(a source without doubt) is its estimate and no source", () => {
    const value = new SourceBook().value({ ...entry, estimate: 4, distribution: { shape: "rectangular", halfWidth: 0 } });
    expect(budgetOf(value)).toMatchObject({ value: 4, standardUncertainty: 0, contributions: [] });
  });
});
