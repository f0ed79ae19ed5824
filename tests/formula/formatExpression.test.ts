import fc from "fast-check";
import { expect, it } from "vitest";
import { evaluateExpression } from "../../lib/formula/evaluateExpression.ts";
import type { Expression } from "../../lib/formula/expression.ts";
import { formatExpression } from "../../lib/formula/formatExpression.ts";
import { numberArithmetic } from "../../lib/formula/numberArithmetic.ts";
import { parseExpression } from "../../lib/formula/parseExpression.ts";
import { unit } from "../../lib/formula/units.ts";

it.each([
  ["(a+b)*c", "(a + b) * c"],
  ["a-(b-c)", "a - (b - c)"],
  ["((a*b))/c", "a * b / c"],
  ["a/(b*c)", "a / (b * c)"],
  ["6 / (2 mm)", "6 / (2 mm)"],
  ["(3 mm)^2", "(3 mm)^2"],
  ["-3mm", "-3 mm"],
  ["a - -b", "a - (-b)"],
  ["(a^b)^c", "(a^b)^c"],
  ["a^(b^c)", "a^(b^c)"],
  ["max( a;b )", "max(a, b)"],
])("formatExpression(%j) is %j", (typed, expected) => {
  const parsed = parseExpression(typed);
  expect(parsed.ok && formatExpression(parsed.value)).toBe(expected);
});

const place = { character: 0 };
const { tree } = fc.letrec<{ tree: Expression }>((tie) => ({
  tree: fc.oneof(
    { maxDepth: 5, withCrossShrink: true },
    fc
      .record({
        kind: fc.constant("number" as const),
        value: fc.integer({ min: 1, max: 99 }),
        decimals: fc.constant(0),
      })
      .map((number): Expression => ({ ...number, text: String(number.value), ...place })),
    fc
      .record({ value: fc.integer({ min: 1, max: 99 }), symbol: fc.constantFrom("mm" as const, "in" as const, "um" as const) })
      .map(({ value, symbol }): Expression => ({ kind: "number", value, decimals: 0, text: String(value), unit: unit(symbol), ...place })),
    fc.record({ above: fc.integer({ min: 1, max: 9 }), below: fc.integer({ min: 1, max: 9 }) }).map(
      ({ above, below }): Expression => ({
        kind: "number",
        value: above / below,
        isFraction: true,
        text: `${above}/${below}`,
        unit: unit("in"),
        ...place,
      }),
    ),
    fc.constantFrom("a", "b").map((name): Expression => ({ kind: "name", name, ...place })),
    tie("tree").map((operand): Expression => ({ kind: "negate", operand, ...place })),
    fc
      .record({ operator: fc.constantFrom("+", "-", "*", "/", "^"), left: tie("tree"), right: tie("tree") })
      .map((parts): Expression => ({ kind: "operation", ...parts, ...place })),
    fc
      .array(tie("tree"), { minLength: 1, maxLength: 3 })
      .map((all): Expression => ({ kind: "call", function: "max", arguments: all, ...place })),
  ),
}));

it("formatExpression(expression) parsed again has the same value to the last bit", () => {
  const names = new Map([
    ["a", 3],
    ["b", -0.7],
  ]);
  const result = (expression: Expression): number | string => {
    const outcome = evaluateExpression(expression, numberArithmetic, names);
    return outcome.ok ? outcome.value : (outcome.problems[0]?.what ?? "");
  };
  fc.assert(
    fc.property(tree, (expression) => {
      const text = formatExpression(expression);
      const again = parseExpression(text);
      expect(again.ok || text.length > 2000 || /brackets/.test(again.problems[0]?.what ?? "")).toBe(true);
      if (again.ok) expect([text, result(again.value)]).toEqual([text, result(expression)]);
    }),
    { numRuns: 2000 },
  );
});
