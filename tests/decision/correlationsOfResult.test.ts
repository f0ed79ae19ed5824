import { describe, expect, it } from "vitest";
import { failure, success } from "../../lib/base/outcome.ts";
import { correlationsOfResult } from "../../lib/decision/correlationsOfResult.ts";
import type { NamedResult } from "../../lib/decision/namedResults.ts";
import { correlationText } from "../../lib/record/correlationText.ts";
import { budgetsOf } from "../../lib/uncertainty/budget.ts";
import { certain, fromSource, type Uncertain } from "../../lib/uncertainty/uncertain.ts";
import { sourceOf } from "../properties/expressions.ts";

const [a, b, c] = ["a", "b", "c"].map((id) => fromSource(sourceOf(id, 0, 1))) as [Uncertain, Uncertain, Uncertain];
const results: readonly NamedResult[] = [
  ["a + b", a.plus(b)],
  ["a - b", a.minus(b)],
  ["a", a],
  ["-2a", a.times(-2)],
  ["c", c],
  ["a + 2b + 2c", a.plus(b.times(2)).plus(c.times(2))],
  ["exact", certain(3)],
].map(([id, value]) => ({ id: id as string, group: "sizes", unit: "mm", budget: success(budgetsOf([value as Uncertain])[0] as never) }));
const unknown: NamedResult = { id: "unknown", group: "zero", unit: "mm", budget: failure({ at: "", what: "nothing" }) };

describe("correlationsOfResult(results, id)", () => {
  // r = u(x, y)/(u(x) u(y)) by hand (JCGM 100:2008, 5.2.2): 1/√2, -1/√2, (1 + 2)/(√2 · 3), 0, 0; sources of other computations meet by their names.
  it("has the strongest first, of either sign, without what is exact or not known", () => {
    const found = correlationsOfResult([...results, unknown], "a + b");
    expect(found.map(({ id }) => id).slice(3)).toEqual(["a - b", "c"]);
    const coefficient = (id: string) => found.find((each) => each.id === id)?.coefficient;
    expect(coefficient("a")).toBeCloseTo(Math.SQRT1_2, 14);
    expect(coefficient("-2a")).toBeCloseTo(-Math.SQRT1_2, 14);
    expect(coefficient("a + 2b + 2c")).toBeCloseTo(Math.SQRT1_2, 14);
    expect([coefficient("a - b"), coefficient("c")]).toEqual([0, 0]);
    expect(found).toHaveLength(5);
  });
  it("has nothing for a result that is exact, not known, or not there", () => {
    for (const id of ["exact", "unknown", "nobody"]) expect(correlationsOfResult([...results, unknown], id)).toEqual([]);
  });
});

describe("correlationText(coefficient)", () => {
  it("rounds to two decimals, but to 1.00 only what is one result", () => {
    expect([0.674, -0.996, 0.9951, 1, -1, 1 - 1e-12, -0.004].map(correlationText)).toEqual([
      "0.67",
      "<-0.99",
      ">0.99",
      "1.00",
      "-1.00",
      "1.00",
      "0.00",
    ]);
  });
});
