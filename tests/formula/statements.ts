import fc from "fast-check";
import { checkStatement } from "../../lib/formula/checkStatement.ts";
import { Column } from "../../lib/formula/column.ts";
import { angleDimension, type Dimension, dimensionless, lengthDimension, temperatureDimension } from "../../lib/formula/dimension.ts";
import type { ValueOrColumn } from "../../lib/formula/evaluateExpression.ts";
import { evaluateStatement } from "../../lib/formula/evaluateStatement.ts";
import { parseStatement } from "../../lib/formula/parseStatement.ts";
import { unit } from "../../lib/formula/units.ts";
import { type Budget, budgetOf } from "../../lib/uncertainty/budget.ts";
import { fromSource, type Uncertain } from "../../lib/uncertainty/uncertain.ts";
import { sourceOf } from "../properties/expressions.ts";

/** Cells and a column that the statements of the tests use. */
export const dimensions = new Map<string, Dimension | Column<Dimension>>([
  ["wall", lengthDimension],
  ["bore", lengthDimension],
  ["skew", angleDimension],
  ["warmth", temperatureDimension],
  ["share", dimensionless],
  ["heights", new Column(lengthDimension)],
]);

/** The same cells' values, with all lengths `lengthScale` times as many and all temperatures `temperatureScale` times: other base units. */
export function valuesIn(lengthScale: number, temperatureScale: number): ReadonlyMap<string, ValueOrColumn<Uncertain>> {
  const cell = (name: string, value: number, u: number) => fromSource(sourceOf(name, value, u));
  return new Map<string, ValueOrColumn<Uncertain>>([
    ["wall", cell("wall", 12.5 * lengthScale, 0.02 * lengthScale)],
    ["bore", cell("bore", -7.25 * lengthScale, 0.01 * lengthScale)],
    ["skew", cell("skew", 0.3, 0.001)],
    ["warmth", cell("warmth", 4.5 * temperatureScale, 0.5 * temperatureScale)],
    ["share", cell("share", 0.4, 0.05)],
    ["heights", new Column([3, 5, 8].map((value) => cell(`height ${value}`, value * lengthScale, 0.01 * lengthScale)))],
  ]);
}

export const values = valuesIn(1, 1);
export const own = { id: "own", label: "the cell's own doubt", family: "process", evidence: { kind: "stated" } } as const;

/** Value and standard uncertainty of a text in a millimetre notebook, or the first problem with its character. */
export function read(text: string, bareUnit: "mm" | "in" = "mm"): Pick<Budget, "value" | "standardUncertainty" | "sources"> | string {
  const parsed = parseStatement(text);
  const checked = parsed.ok ? checkStatement(parsed.value, dimensions, { bareUnit: unit(bareUnit) }) : parsed;
  const evaluated = checked.ok ? evaluateStatement(checked.value, values, own) : checked;
  if (!evaluated.ok) return `${evaluated.problems[0]?.what} @${evaluated.problems[0]?.character}`;
  const { value, standardUncertainty, sources } = budgetOf(evaluated.value);
  return { value, standardUncertainty, sources };
}

/**
 * A text shaped by the grammar, once with its typed lengths in inches and once with the same lengths in millimetres; the writer does not use the
 * code under test.
 */
export interface TwoTexts {
  readonly inches: string;
  readonly millimetres: string;
}

const same = (text: string): TwoTexts => ({ inches: text, millimetres: text });
const joined = (parts: readonly (TwoTexts | string)[]): TwoTexts => ({
  inches: parts.map((part) => (typeof part === "string" ? part : part.inches)).join(""),
  millimetres: parts.map((part) => (typeof part === "string" ? part : part.millimetres)).join(""),
});

/** An inch is 25.4 mm exactly (NIST SP 811, B.8), so tenths of an inch have two decimals in millimetres. */
const lengths = fc.integer({ min: 1, max: 300 }).map(
  (tenths): TwoTexts => ({
    inches: `${Math.floor(tenths / 10)}.${tenths % 10} in`,
    millimetres: `${Math.floor((tenths * 254) / 100)}.${String((tenths * 254) % 100).padStart(2, "0")} mm`,
  }),
);
const number = fc.constantFrom("2", "3", "0.5", "1.25", "0", "7").map(same);
const name = fc.constantFrom("wall", "bore", "skew", "warmth", "share", "wall", "bore").map(same);
const otherQuantity = fc.constantFrom("30 deg", "0.2 rad", "3 K", "20 mK").map(same);

export const formulaTexts = fc.letrec<{ formula: TwoTexts; leaf: TwoTexts }>((tie) => ({
  leaf: fc.oneof({ weight: 3, arbitrary: lengths }, number, { weight: 2, arbitrary: name }, otherQuantity),
  formula: fc.oneof(
    { maxDepth: 3 },
    tie("leaf"),
    fc.tuple(tie("formula"), fc.constantFrom(" + ", " - ", " * ", " / ", "+ ", "*"), tie("formula")).map(joined),
    fc.tuple(fc.constant("("), tie("formula"), fc.constantFrom(" + ", " - ", " * "), tie("formula"), fc.constant(")")).map(joined),
    fc.tuple(fc.constant("("), tie("formula"), fc.constantFrom(")^2", ")^-1", ")^0.5", ")^(1/3)", ")^3")).map(joined),
    fc.tuple(fc.constant("-("), tie("formula"), fc.constant(")")).map(joined),
    fc
      .tuple(
        fc.constantFrom("sqrt(", "abs(", "sin(", "cos(", "tan(", "asin(", "atan(", "estimate(", "mean(heights, ", "max(", "sum("),
        tie("formula"),
        fc.constant(")"),
      )
      .map(joined),
    fc
      .tuple(
        fc.constantFrom("min(", "max(", "mean(", "hypot(", "atan2(", "deviation(", "count("),
        tie("formula"),
        fc.constant(", "),
        tie("formula"),
        fc.constant(")"),
      )
      .map(joined),
  ),
})).formula;

/** Not a bare number alone, whose unit would depend on that of the doubt. */
const valueTexts = fc.oneof(lengths, name, fc.tuple(lengths, fc.constantFrom(" + ", " - ", " * "), formulaTexts).map(joined));

export const statementTexts = fc.oneof(
  { weight: 4, arbitrary: formulaTexts },
  fc
    .tuple(
      valueTexts,
      fc.constantFrom(" ± ", " +- ", "+/-"),
      lengths,
      fc.constantFrom("", " (k = 2)", " (9 degrees of freedom)", " (df 3; k = 2)"),
    )
    .map(joined),
  fc
    .tuple(
      valueTexts,
      fc.constant(" within "),
      lengths,
      fc.constantFrom("", " triangular", " arcsine", " normal", " trapezoidal (top 0.5)"),
    )
    .map(joined),
  fc.tuple(fc.constant("from "), lengths, fc.constant(" to "), lengths, fc.constantFrom("", " triangular")).map(joined),
  fc.tuple(lengths, fc.constant(" not below "), lengths, fc.constantFrom("", " exponential")).map(joined),
  fc.tuple(lengths, fc.constant("; "), lengths, fc.constantFrom("; ", " | "), lengths).map(joined),
  fc.tuple(valueTexts, fc.constantFrom(" ± ", " within "), number, fc.constantFrom(" %", "%")).map(joined),
);
