import fc from "fast-check";
import { expect, it } from "vitest";
import { Column } from "../../lib/formula/column.ts";
import { evaluateExpression, type ValueOrColumn } from "../../lib/formula/evaluateExpression.ts";
import { numberArithmetic } from "../../lib/formula/numberArithmetic.ts";
import { parseExpression } from "../../lib/formula/parseExpression.ts";
import { soundBudget } from "../../lib/formula/soundBudget.ts";
import { uncertainArithmetic } from "../../lib/formula/uncertainArithmetic.ts";
import { budgetOf } from "../../lib/uncertainty/budget.ts";
import { certain, fromSource, type Uncertain } from "../../lib/uncertainty/uncertain.ts";
import { sourceOf } from "../properties/expressions.ts";
import reference from "../reference/formulas.json" with { type: "json" };

type Names = ReadonlyMap<string, ValueOrColumn<Uncertain>>;

function evaluate(text: string, names: Names) {
  const parsed = parseExpression(text);
  return parsed.ok ? evaluateExpression(parsed.value, uncertainArithmetic, names) : parsed;
}

function evaluated(text: string, names: Names): Uncertain {
  const outcome = evaluate(text, names);
  if (!outcome.ok) throw new Error(`${text}: ${outcome.problems[0]?.what}`);
  return outcome.value;
}

const uncertain = (name: string, value: number, standardUncertainty = 0.1) => fromSource(sourceOf(name, value, standardUncertainty));

it.each(reference.cases)("$formula, t = $cell, agrees with python3-uncertainties", ({ cell, formula, value, standardUncertainty }) => {
  const names = new Map(Object.entries(reference.inputs).map(([name, [estimate = 0, u]]) => [name, uncertain(name, estimate, u)]));
  names.set("t", evaluated(cell, names));
  const budget = budgetOf(evaluated(formula, names));
  const scale = Math.max(1, Math.abs(value));
  expect(Math.abs(budget.value - value) / scale).toBeLessThan(1e-11);
  expect(budget.standardUncertainty / standardUncertainty).toBeCloseTo(1, 8);
});

// Closed forms of the derivative at the estimates x = 0, n = -3, one = 1, each with standard uncertainty 0.1.
const traps = new Map<string, ValueOrColumn<Uncertain>>([
  ["x", uncertain("x", 0)],
  ["y", uncertain("y", 0)],
  ["n", uncertain("n", -3)],
  ["one", uncertain("one", 1)],
  ["other", uncertain("other", 1)],
  ["zero", certain(0)],
]);

it.each([
  ["x^2", 0, 0],
  ["x^0", 1, 0],
  ["x^1", 0, 0.1],
  ["x^3", 0, 0],
  ["n^2", 9, 0.6],
  ["n^3", -27, 2.7],
  ["n^-1", -1 / 3, 0.1 / 9],
  ["n^-2", 1 / 9, 0.2 / 27],
  ["n^0", 1, 0],
  ["n^1", -3, 0.1],
  ["zero^one", 0, 0],
  ["2^x", 1, 0.1 * Math.LN2],
  ["abs(n)", 3, 0.1],
  ["abs(x * x)", 0, 0],
  ["hypot(x, 0, 4)", 4, 0],
  ["hypot(x, y, n)", 3, 0.1],
  ["hypot(n)", 3, 0.1],
  ["hypot(3, 4, 12)", 13, 0],
  ["max(one, one)", 1, 0.1],
  ["max(one + zero * n, one, n)", 1, 0.1],
  ["max(one, other, 5)", 5, 0],
  ["min(one, other, n)", -3, 0.1],
  ["atan2(x, one)", 0, 0.1],
  ["atan2(one, x)", Math.PI / 2, 0.1],
  ["mean(one, other)", 1, 0.1 / Math.SQRT2],
  ["mean(one, one)", 1, 0.1],
  ["sum(one, other, one)", 3, 0.1 * Math.sqrt(5)],
  ["count(one, other)", 2, 0],
  ["estimate(n) + x", -3, 0.1],
  ["sqrt(zero) + asin(1) + abs(0)", Math.PI / 2, 0],
])("%s is %d with standard uncertainty %d", (text, value, standardUncertainty) => {
  const budget = budgetOf(evaluated(text, traps));
  expect(budget.value).toBeCloseTo(value, 14);
  expect(budget.standardUncertainty).toBeCloseTo(standardUncertainty, 14);
});

it.each([
  ["1 + sqrt(x)", 4],
  ["sqrt(x * x)", 0],
  ["asin(one)", 0],
  ["acos(-one)", 0],
  ["abs(x)", 0],
  ["hypot(x, y)", 0],
  ["hypot(x, 0)", 0],
  ["hypot(x)", 0],
  ["atan2(x, n)", 0],
  ["max(one, other)", 0],
  ["2 * min(one, 1)", 4],
  ["x^0.5", 1],
  ["x^1.5", 1],
  ["n^one", 1],
  ["x^one", 1],
  ["zero^x", 4],
])("%s has no derivative in the operand that is in doubt and is refused at its operation", (text, character) => {
  const outcome = evaluate(text, traps);
  expect(outcome).toMatchObject({ ok: false, problems: [{ character, remedy: expect.stringContaining("estimate") }] });
});

it.each(["sqrt(estimate(x))", "asin(estimate(one))", "abs(estimate(x))", "max(estimate(one), estimate(other))"])(
  "%s is refused no more once the doubt is put aside",
  (text) => {
    expect(budgetOf(evaluated(text, traps)).standardUncertainty).toBe(0);
  },
);

it("a formula of sure values is the same number, to the last bit, as over plain numbers", () => {
  const texts = [
    "hypot(a, b, 3)",
    "mean(a, b, 0.3)",
    "min(a, b) + max(a, 0.1)",
    "a^3 - b^-2",
    "deviation(a, b, 2)",
    "sum(a, b, a) / count(a, b)",
  ];
  const number = fc.double({ min: -1e6, max: 1e6, noNaN: true }).filter((value) => Math.abs(value) > 1e-6);
  fc.assert(
    fc.property(number, number, fc.constantFrom(...texts), (a, b, text) => {
      const parsed = parseExpression(text);
      const plain = parsed.ok ? evaluateExpression(parsed.value, numberArithmetic, new Map(Object.entries({ a, b }))) : parsed;
      const sure = evaluate(text, new Map(Object.entries({ a: certain(a), b: certain(b) })));
      expect(plain.ok && sure.ok && [sure.value.value, sure.value.operation.kind]).toEqual([plain.ok && plain.value, "constant"]);
    }),
    { numRuns: 500 },
  );
});

const readings = [5.0, 5.004, 4.998, 5.002, 4.996];
const columns = new Map<string, ValueOrColumn<Uncertain>>([
  ["diameters", new Column(readings.map((value, index) => uncertain(`reading ${index}`, value, 0.002)))],
  ["nothing", new Column<readonly Uncertain[]>([])],
  ["single", new Column([uncertain("single", 5.01, 0.002)])],
  ["broken", new Column([certain(1), certain(Number.NaN)])],
]);

// Worked by hand: mean 5.000 and s² = (0 + 16 + 4 + 4 + 16)·1e-6/4 = 1e-5 (JCGM 100:2008, 4.2.1 and 4.2.2).
it.each([
  ["mean(diameters)", 5, 0.002 / Math.sqrt(5)],
  ["sum(diameters)", 25, 0.002 * Math.sqrt(5)],
  ["min(diameters)", 4.996, 0.002],
  ["max(diameters, single)", 5.01, 0.002],
  ["max(diameters, 6)", 6, 0],
  ["count(diameters)", 5, 0],
  ["count(diameters, single, 7, nothing)", 7, 0],
  ["sum(nothing)", 0, 0],
  ["deviation(diameters)", Math.sqrt(1e-5), 0],
  ["deviation(diameters) / sqrt(count(diameters))", Math.sqrt(2e-6), 0],
])("%s of columns is %d with standard uncertainty %d", (text, value, standardUncertainty) => {
  const budget = budgetOf(evaluated(text, columns));
  expect(budget.value).toBeCloseTo(value, 12);
  expect(budget.standardUncertainty).toBeCloseTo(standardUncertainty, 12);
});

it.each([
  ["1 + diameters", '"diameters" is a column, and one value is expected here', 4],
  ["hypot(diameters)", '"diameters" is a column, and one value is expected here', 6],
  ["estimate(diameters)", '"diameters" is a column, and one value is expected here', 9],
  ["mean(2 * diameters)", '"diameters" is a column, and one value is expected here', 9],
  ["mean(nothing)", "mean of a column without values", 0],
  ["2 - min(nothing)", "min of a column without values", 4],
  ["deviation(single)", "the deviation needs two values or more, not 1", 0],
  ["mean(broken)", "the result is too large, or is no number", 5],
])("%s of columns is refused: %s", (text, what, character) => {
  expect(evaluate(text, columns)).toMatchObject({ ok: false, problems: [{ what, character }] });
});

it("a long column has its mean and extremes without running out of stack", () => {
  const long = new Map([["long", new Column(Array.from({ length: 200_000 }, (_, index) => certain(index)))]]);
  expect(evaluated("max(long) + mean(long) + min(long) + sum(long)", long).value).toBe(199_999 * 1.5 + (199_999 * 200_000) / 2);
});

it("soundBudget(value) refuses a value that is finite and whose uncertainty is not", () => {
  const steep = evaluated("(x * 1e200) * 1e200", traps);
  expect(steep.value).toBe(0);
  expect(soundBudget(steep)).toMatchObject({
    ok: false,
    problems: [{ what: "the uncertainty of the result is too large, or is no number" }],
  });
  const soft = soundBudget(evaluated("one * 2", traps));
  expect(soft.ok && soft.value.standardUncertainty).toBeCloseTo(0.2, 14);
});
