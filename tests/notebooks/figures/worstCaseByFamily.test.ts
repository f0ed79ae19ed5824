import fc from "fast-check";
import { expect, it } from "vitest";
import { mm } from "../../../lib/base/quantity.ts";
import { stackOf } from "../../../lib/tolerance/stack.ts";
import { type Budget, budgetsOf } from "../../../lib/uncertainty/budget.ts";
import { families, type Source } from "../../../lib/uncertainty/source.ts";
import { certain } from "../../../lib/uncertainty/uncertain.ts";
import { worstCaseByFamily } from "../../../notebooks/figures/stack/worstCaseByFamily.ts";
import { budget, contribution, resultWith } from "./exampleBudget.ts";

const rows = fc.array(fc.tuple(fc.integer({ min: 0, max: 5 }), fc.integer({ min: -50, max: 50 }), fc.integer({ min: -50, max: 50 })), {
  minLength: 1,
  maxLength: 9,
});

/** Budgets of X and Y that share every source. */
function components(effects: readonly (readonly [number, number, number])[], x: number, y: number): Budget[] {
  const sources = effects.map(([family], i) => contribution(`s${i}`, 0.001, families[family]).source);
  const along = (axis: 1 | 2, value: number) =>
    resultWith(
      value,
      effects.map((effect, i) => ({ source: sources[i] as Source, sensitivity: effect[axis] })),
    );
  return budgetsOf([along(1, x), along(2, y)]);
}

it("worstCaseByFamily(stack) of a position adds up to the farthest corner, which the library finds by walking round it", () => {
  fc.assert(
    fc.property(rows, fc.integer({ min: -30, max: 30 }), fc.integer({ min: -30, max: 30 }), (effects, x, y) => {
      const stack = stackOf({ id: "h", kind: "position", of: "h", zone: mm(1) }, components(effects, x / 1000, y / 1000));
      const { estimate, reaches } = worstCaseByFamily(stack);
      const total = reaches.reduce((sum, { reach }) => sum + reach, estimate);
      expect(total).toBeCloseTo(stack.worstCase.upper, 9);
      expect(estimate).toBeGreaterThanOrEqual(-1e-9);
    }),
    { numRuns: 40 },
  );
});

it("worstCaseByFamily(stack) of a coordinate adds up to half of the range, families in their fixed order", () => {
  const found = budget(
    0.01,
    contribution("cut", 0.004, "process"),
    contribution("radius", -0.001, "contact tool"),
    contribution("scale", 0.002),
  );
  const stack = stackOf({ id: "c", kind: "coordinate", of: "c", axis: "X", limits: { lower: mm(-0.1), upper: mm(0.1) } }, [found]);
  const { estimate, reaches } = worstCaseByFamily(stack);
  expect(reaches.map(({ family }) => family)).toEqual(["contact tool", "machine", "process"]);
  // Three standard uncertainties each, normal sources having no end: 0.003, 0.006 and 0.012.
  expect(reaches.map(({ reach }) => Number(reach.toFixed(9)))).toEqual([0.003, 0.006, 0.012]);
  expect(estimate).toBe(0);
});

it("worstCaseByFamily(stack) of an exact position has no parts", () => {
  const stack = stackOf({ id: "h", kind: "position", of: "h", zone: mm(1) }, budgetsOf([certain(0), certain(0)]));
  expect(worstCaseByFamily(stack)).toEqual({ estimate: 0, reaches: [] });
});
