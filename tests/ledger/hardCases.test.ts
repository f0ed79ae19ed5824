import { expect, it } from "vitest";
import { newDocument } from "../../lib/document/newDocument.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { plainResults } from "../../lib/record/plainResults.ts";
import { budgetDistribution } from "../../lib/tolerance/budgetDistribution.ts";
import { budgetOf } from "../../lib/uncertainty/budget.ts";
import { cell } from "./blocks.ts";

// Cases that are easily got wrong, as they are typed into cells; what is below them is held against scipy and closed forms in
// tests/uncertainty/hardCases.test.ts.

function evaluated(cells: Readonly<Record<string, string>>, correlations: readonly object[] = []) {
  return evaluateSetup({
    ...newDocument(),
    ledger: Object.entries(cells).map(([name, entry]) => cell(name, entry)),
    correlations: correlations as ReturnType<typeof newDocument>["correlations"],
  });
}

function budgetIn(cells: Readonly<Record<string, string>>, name: string, correlations: readonly object[] = []) {
  const found = evaluated(cells, correlations).own.get(name);
  if (!found?.ok || found.value.kind !== "quantity") throw new Error(`${name}: ${JSON.stringify(found)}`);
  return budgetOf(found.value.value);
}

interface PlainCell {
  readonly name: string;
  readonly expandedUncertainty: number;
  readonly coverageFactor: number;
  readonly degreesOfFreedom: number | string;
}
const plain = (cells: Readonly<Record<string, string>>, name: string) =>
  (plainResults(evaluated(cells)).own as readonly PlainCell[]).find((each) => each.name === name) as PlainCell;

// EA-4/02, table E.1: 95.45 % with one degree of freedom are k = 13.97 (value from memory, recomputed).
it.each(["10 mm ± 0.1 mm (df 1)", "10.0; 10.2 mm", "10.0; 10.0 | 10.2; 10.2 mm"])(
  "one degree of freedom: %s has u = 0.1 mm and k = 13.97",
  (entry) => {
    const found = plain({ a: entry }, "a");
    expect(found.degreesOfFreedom).toBeCloseTo(1, 12);
    expect(Math.abs(found.coverageFactor - 13.97)).toBeLessThanOrEqual(0.005);
    expect(Math.abs(found.expandedUncertainty - 1.397)).toBeLessThanOrEqual(0.0005);
  },
);

// Closed form: a triangle of half-width 2, whose 95 % lie within 2 - √0.2; one rectangle of half-width 1 with next to nothing beside: 0.95.
it.each([
  ["two equal rectangles", "a + b", 2 - Math.sqrt(0.2), 9],
  ["one dominant rectangle", "a + b / 100000", 0.95, 5],
])("%s have the interval of their own law", (_, entry, half, digits) => {
  const budget = budgetIn({ a: "0 mm within 1 mm", b: "0 mm within 1 mm", total: entry }, "total");
  const [low, high] = budgetDistribution(budget).interval(0.95, "symmetric");
  expect(high).toBeCloseTo(half, digits);
  expect(low).toBeCloseTo(-half, digits);
});

it("zero uncertainty: a sure value is exact, and a doubt that cancels leaves none", () => {
  expect(budgetIn({ a: "12.5 mm" }, "a")).toMatchObject({ value: 12.5, standardUncertainty: 0, contributions: [] });
  expect(budgetIn({ a: "12.5 mm ± 0 mm" }, "a")).toMatchObject({ value: 12.5, standardUncertainty: 0 });
  expect(budgetIn({ a: "12.5 mm ± 0.1 %", b: "a - a + 1 mm" }, "b")).toMatchObject({ value: 1, standardUncertainty: 0, contributions: [] });
});

// JCGM 100:2008, 5.2.2: u² = u₁² + u₂² + 2 r u₁ u₂ for a sum, the other sign for a difference.
it.each([
  [1, 0.05, 0.01],
  [-1, 0.01, 0.05],
])("a correlation of %d of 0.03 and 0.02 mm makes %d mm of the sum and %d mm of the difference", (coefficient, ofSum, ofDifference) => {
  const cells = { a: "10 mm ± 0.03 mm", b: "10 mm ± 0.02 mm", total: "a + b", difference: "a - b" };
  const rows = [{ id: "r", one: "cell a", other: "cell b", coefficient: `${coefficient}`, evidence: "stated", note: "" }];
  expect(budgetIn(cells, "total", rows).standardUncertainty).toBeCloseTo(ofSum, 12);
  expect(budgetIn(cells, "difference", rows).standardUncertainty).toBeCloseTo(ofDifference, 12);
});

it("correlations that no quantities can have leave the cells without a value, and say which row and what is possible", () => {
  const cells = { a: "1 mm ± 0.1 mm", b: "1 mm ± 0.1 mm", c: "1 mm ± 0.1 mm" };
  const row = (id: string, one: string, other: string, coefficient: string) => ({
    id,
    one,
    other,
    coefficient,
    evidence: "stated",
    note: "",
  });
  const { own, problems } = evaluated(cells, [
    row("1", "cell a", "cell b", "0.6"),
    row("2", "cell b", "cell c", "0.6"),
    row("3", "cell a", "cell c", "-0.6"),
  ]);
  const told = [...problems, ...[...own.values()].flatMap((outcome) => (outcome.ok ? [] : outcome.problems))];
  // r₁₃ between r₁₂ r₂₃ ± √((1 - r₁₂²)(1 - r₂₃²)) = 0.36 ± 0.64 (determinant, by hand).
  expect(told.map(({ what }) => what).join()).toMatch(/"a", "b", "c".*-0\.28 to 1/);
  expect([...own.values()].every((outcome) => !outcome.ok)).toBe(true);
});
