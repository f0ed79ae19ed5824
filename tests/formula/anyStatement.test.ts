import fc from "fast-check";
import { expect, it } from "vitest";
import { describeProblem, type Outcome } from "../../lib/base/outcome.ts";
import { type CheckedStatement, checkStatement } from "../../lib/formula/checkStatement.ts";
import { describeDoubt } from "../../lib/formula/describeDoubt.ts";
import type { Dimension } from "../../lib/formula/dimension.ts";
import { evaluateStatement } from "../../lib/formula/evaluateStatement.ts";
import type { Expression } from "../../lib/formula/expression.ts";
import { formatStatement } from "../../lib/formula/formatStatement.ts";
import { parseStatement } from "../../lib/formula/parseStatement.ts";
import { renameInText } from "../../lib/formula/renameInText.ts";
import { convertToUnit, parseUnit, resultUnit } from "../../lib/formula/resultUnit.ts";
import { soundBudget } from "../../lib/formula/soundBudget.ts";
import { unit } from "../../lib/formula/units.ts";
import { type SourceDistribution, standardUncertaintyOf } from "../../lib/uncertainty/sourceDistribution.ts";
import { certain } from "../../lib/uncertainty/uncertain.ts";
import { dimensions, formulaTexts, own, read, statementTexts, values, valuesIn } from "./statements.ts";

/** Signs and words of the language and near it, in any order: what a slip of the hand, or a hostile one, makes of a statement. */
const pieces = fc.constantFrom(
  ...["1", "12.5", "0", ".5", "12,5", "1,234", "1e3", "9e999", "1e-300", "1e300", "٣", "４", "12.500(2)", "(2)"],
  ...[" mm", " in", " um", "µm", "deg", "°", " K", "kg", '"', "'", "mm^2"],
  ...["+", "-", "−", "*", "×", "/", "^", "^2", "(", ")", ",", "; ", " ", "\n", "\u00a0", "+-", "+/-", " ± ", "±"],
  ...[
    "sqrt(",
    "max(",
    "sin(",
    "mean(",
    "deviation(",
    "count(",
    "estimate(",
    "value_on_line(",
    "slope_of_line(heights; heights)",
    "pi",
    "wall",
    "bore",
    "share",
    "skew",
    "heights",
  ],
  ...[
    " within ",
    "from ",
    " to ",
    " not below ",
    " not ",
    " below ",
    " exponential",
    " triangular",
    " trapezoidal",
    "(top 0.5)",
    "(k = 2)",
    "(df 9)",
    "(9 degrees of freedom)",
    "k",
    "=",
  ],
  ...["constructor", "__proto__", "toString", "hasOwnProperty", "import", "mod", "NaN", "\u200b", "\u200f", "\u202e", "\u2066"],
  ...["[", "}", "?", ":", "%", " %", "|", "#", "\\", "..", "$", "²", "½", "√", "🙂", "\ud800", "\u0301", "\u0000"],
);
const nearGrammar = fc.array(pieces, { maxLength: 9 }).map((parts) => parts.join(""));
const anyText = fc.oneof(
  { weight: 6, arbitrary: nearGrammar },
  { weight: 3, arbitrary: statementTexts.map(({ inches }) => inches) },
  { weight: 1, arbitrary: fc.array(fc.integer({ min: 0, max: 0xffff }), { maxLength: 30 }).map((codes) => String.fromCharCode(...codes)) },
);

/** What is wrong with a refusal itself; undefined for a sentence without holes whose place lies in the text. */
function flawOf(outcome: Outcome<unknown> & { ok: false }, text: string): string | undefined {
  if (outcome.problems.length === 0) return "refused without a reason";
  for (const problem of outcome.problems) {
    const { character = 0 } = problem;
    if (!(Number.isInteger(character) && character >= 0 && character <= text.length)) return `place ${character} of ${text.length}`;
    const told = describeProblem({ ...problem, got: "" });
    if (/undefined|\[object|NaN \(char|[\u202a-\u202e\u2066-\u2069]/.test(told)) return told;
  }
  return undefined;
}

const place = { bareUnit: unit("mm") };

/** The same statement with other base units: one whose lengths are `lengthScale` times as many and temperatures `temperatureScale` times. */
function rescaled(statement: CheckedStatement, scaleOf: (dimension: Dimension) => number): CheckedStatement {
  const walk = (node: Expression): Expression => {
    switch (node.kind) {
      case "number":
        return node.unit ? { ...node, unit: { ...node.unit, numerator: node.unit.numerator * scaleOf(node.unit.dimension) } } : node;
      case "negate":
        return { ...node, operand: walk(node.operand) };
      case "operation":
        return { ...node, left: walk(node.left), right: walk(node.right) };
      case "call":
        return { ...node, arguments: node.arguments.map(walk) };
      default:
        return node;
    }
  };
  return { ...statement, expression: walk(statement.expression) };
}

/**
 * A result is of the dimension that was found for it exactly if it grows with the base units as that dimension does: a value with four times as
 * many length units must be 4^n times as large. Powers of two, so that nothing but roots and powers is rounded otherwise.
 */
function wrongUnit(statement: CheckedStatement): string | undefined {
  const [lengthScale, temperatureScale] = [4, 16];
  const scaleOf = ({ length, temperature }: Dimension) => lengthScale ** length * temperatureScale ** temperature;
  const withoutDoubt = { expression: statement.expression, dimension: statement.dimension, isBare: statement.isBare };
  const here = evaluateStatement(withoutDoubt, values, own);
  const there = evaluateStatement(rescaled(withoutDoubt, scaleOf), valuesIn(lengthScale, temperatureScale), own);
  if (!here.ok || !there.ok) return undefined;
  const [a, b] = [soundBudget(here.value), soundBudget(there.value)];
  if (!a.ok || !b.ok) return undefined;
  const scale = scaleOf(statement.dimension);
  const alike = (x: number, y: number) =>
    Math.abs(x * scale - y) <= 1e-9 * Math.max(Math.abs(y), Math.abs(x * scale)) || tooFine(x) || tooFine(y);
  return alike(a.value.value, b.value.value) && alike(a.value.standardUncertainty, b.value.standardUncertainty)
    ? undefined
    : `${a.value.value} (${a.value.standardUncertainty}) became ${b.value.value} (${b.value.standardUncertainty}), expected ${scale} times`;
}

/** Numbers near the ends of what a double holds, and what is left of a sum that cancels, do not scale. */
function tooFine(value: number): boolean {
  return Math.abs(value) < 1e-9 || Math.abs(value) > 1e200;
}

/** Everything that a cell does with a text; what is wrong about it, in words. */
function flaw(text: string): string | undefined {
  const parsed = parseStatement(text);
  renameInText(text, "wall", "gate");
  if (!parsed.ok) return flawOf(parsed, text);
  const again = parseStatement(formatStatement(parsed.value));
  if (again.ok ? withoutPlaces(again.value) !== withoutPlaces(parsed.value) : formatStatement(parsed.value).length < 2000)
    return `printed as ${formatStatement(parsed.value)}`;
  const checked = checkStatement(parsed.value, dimensions, place);
  if (!checked.ok) return flawOf(checked, text);
  const { doubt, dimension } = checked.value;
  if (doubt && !isSound(doubt.distribution)) return `a doubt of ${standardUncertaintyOf(doubt.distribution)}`;
  if (doubt) describeDoubt(doubt, resultUnit(dimension, "inch"));
  const evaluated = evaluateStatement(checked.value, values, own);
  if (!evaluated.ok) return flawOf(evaluated, text);
  const budget = soundBudget(evaluated.value);
  if (!budget.ok) return flawOf(budget, text);
  const { value, standardUncertainty } = budget.value;
  if (!Number.isFinite(value) || !(standardUncertainty >= 0 && standardUncertainty < Number.POSITIVE_INFINITY))
    return `${value} ± ${standardUncertainty}`;
  return wrongUnit(checked.value);
}

function isSound(distribution: SourceDistribution): boolean {
  const standardUncertainty = standardUncertaintyOf(distribution);
  return standardUncertainty >= 0 && standardUncertainty < Number.POSITIVE_INFINITY;
}

function withoutPlaces(value: unknown): string {
  return JSON.stringify(value, (key, inner: unknown) => (key === "character" ? undefined : inner));
}

it("100,000 random and grammar-shaped texts give a value in its unit, printed so that it reads the same, or a problem at its place; never an exception", () => {
  fc.assert(
    fc.property(anyText, (text) => {
      const found = flaw(text);
      if (found !== undefined) throw new Error(`${JSON.stringify(text)}: ${found}`);
    }),
    { numRuns: 100_000 },
  );
}, 300_000);

it("any text for a unit gives a unit or a problem, and a unit's own symbol reads as the same unit", () => {
  const unitPieces = fc.constantFrom(
    "mm",
    "um",
    "in",
    "K",
    "deg",
    "kg",
    "^",
    "2",
    "^2",
    "^-1",
    "^999",
    "/",
    "*",
    "·",
    "(",
    ")",
    " ",
    "1",
    "²",
    "__proto__",
    "constructor",
  );
  fc.assert(
    fc.property(fc.array(unitPieces, { maxLength: 8 }), (parts) => {
      const text = parts.join("");
      const parsed = parseUnit(text);
      if (!parsed.ok) return flawOf(parsed, text) === undefined;
      if (parsed.value.symbol === "") return true;
      const again = parseUnit(parsed.value.symbol);
      const ratio = again.ok ? (again.value.numerator / again.value.denominator) * (parsed.value.denominator / parsed.value.numerator) : 0;
      return again.ok && Math.abs(ratio - 1) < 1e-12 && withoutPlaces(again.value.dimension) === withoutPlaces(parsed.value.dimension);
    }),
    { numRuns: 5000 },
  );
});

it.each([
  ["a long text", "wall + ".repeat(400)],
  ["a long list", "1; ".repeat(660).concat("1 mm")],
  ["many brackets behind", "wall ± 1 mm".concat(" (k = 2)".repeat(240))],
  ["many open brackets", "(".repeat(1990)],
  ["many closed brackets", ")".repeat(1990)],
  ["many signs", "-".repeat(1990).concat("1 mm")],
  ["many doubts", "±".repeat(1990)],
  ["a tower of powers", "2".concat("^9".repeat(900))],
  ["a huge power of a length", "(2 mm)^1e300 / (2 mm)^(1e300 - 1)"],
  ["a tiny power of a length", "((2 mm)^1e-10)^1e10"],
  ["blanks", " ".repeat(1900).concat("± 1 mm")],
  ["a long word", "w".repeat(1990)],
])("parseStatement(%s) has no trouble of its own", (_, text) => {
  expect(flaw(text)).toBeUndefined();
});

it.each(["constructor", "__proto__", "toString", "hasOwnProperty", "valueOf"])("%s is an unknown name, and may be a cell's own", (name) => {
  expect(read(`${name} + 1 mm`)).toBe(`unknown name "${name}" @0`);
  const parsed = parseStatement(`${name} ± 1 mm`);
  const checked = parsed.ok ? checkStatement(parsed.value, new Map([[name, unit("mm").dimension]]), place) : parsed;
  const evaluated = checked.ok ? evaluateStatement(checked.value, new Map([[name, certain(3)]]), own) : checked;
  expect(evaluated.ok && evaluated.value.value).toBe(3);
});

it.each([
  ["wa\u200bll + 1 mm", { value: 13.5 }],
  ["\ufeffwall ± 0 mm", { value: 12.5 }],
])("signs without a shape inside %j are no part of it", (text, expected) => {
  expect(read(text)).toMatchObject(expected);
});

it.each([
  ["wall\u202e + 1", "the sign U+202E is not understood in a formula @4"],
  ["\u2067wall", "the sign U+2067 is not understood in a formula @0"],
  ["wa\u200dll", "the sign U+200D is not understood in a formula @2"],
  ["wall \u0000", "the sign U+0000 is not understood in a formula @5"],
])("signs that turn or hide text are named by their number: %j", (text, expected) => {
  expect(read(text)).toBe(expected);
});

it("a statement with all its lengths typed in inches is the same value with the same doubt as in millimetres", () => {
  const outcomes = { told: 0, refused: 0 };
  fc.assert(
    fc.property(statementTexts, ({ inches, millimetres }) => {
      const [a, b] = [read(inches), read(millimetres)];
      if (typeof a === "string" || typeof b === "string") {
        outcomes.refused++;
        return typeof a === typeof b || /equal values|corner|zero|steep/.test(`${typeof a === "string" ? a : b}`);
      }
      outcomes.told++;
      const alike = (x: number, y: number) => Math.abs(x - y) <= 1e-9 * Math.max(1, Math.abs(x));
      return alike(a.value, b.value) && alike(a.standardUncertainty, b.standardUncertainty);
    }),
    { numRuns: 3000 },
  );
  expect(outcomes.told).toBeGreaterThan(1000);
});

it("renameInText(there and back) leaves every text as it was, and the formula between them means the same of the other name", () => {
  fc.assert(
    fc.property(
      fc.oneof(
        statementTexts.map(({ inches }) => inches),
        nearGrammar,
      ),
      fc.constantFrom("wall", "bore", "share", "skew"),
      (text, name) => {
        const renamed = renameInText(text, name, "größe_2");
        if (renameInText(renamed, "größe_2", name) !== text) return false;
        const [before, after] = [parseStatement(text), parseStatement(renamed)];
        if (!before.ok || !after.ok) return before.ok === after.ok;
        return withoutPlaces(before.value).replaceAll(`"name":"${name}"`, '"name":"größe_2"') === withoutPlaces(after.value);
      },
    ),
    { numRuns: 5000 },
  );
});

it.each([
  ["k + k(k) (k = 2)", "k", "q", "q + q(q) (k = 2)"],
  ["2 top + top within 1 mm trapezoidal (top 0.5)", "top", "lid", "2 top + lid within 1 mm trapezoidal (top 0.5)"],
  ["triangular within 1 mm triangular", "triangular", "t", "t within 1 mm triangular"],
  // A name may stand behind what parts a statement.
  ["3 mm within play", "play", "gap", "3 mm within gap"],
  ["from low to high", "low", "least", "from least to high"],
  ["from low to high", "high", "most", "from low to most"],
  ["low not below low exponential", "low", "least", "least not below least exponential"],
  ["below not below below", "below", "b", "b not below b"],
  ["exponential not below 0 mm exponential", "exponential", "e", "e not below 0 mm exponential"],
  ["3 K * K_factor − kk", "K_factor", "f", "3 K * f − kk"],
  ["cafe\u0301 + 1", "café", "bar", "bar + 1"],
  ["wall\u200b + 1", "wall", "gate", "gate\u200b + 1"],
  ["  left_face+(", "left_face", "a", "  a+("],
  ["1e3 * e3", "e3", "x", "1e3 * x"],
])("renameInText(%j, %s, %s) is %j", (text, from, to, expected) => {
  expect(renameInText(text, from, to)).toBe(expected);
});

it("renameInText(text, from, to) takes no name that could not stand in a formula", () => {
  for (const to of ["mm", "sin", "from", "1a", "a b", ""]) expect(() => renameInText("a", "a", to)).toThrow(RangeError);
});

it("a value in a chosen unit is the number that its text in that unit means", () => {
  fc.assert(
    fc.property(formulaTexts, ({ inches }) => {
      const parsed = parseStatement(inches);
      const checked = parsed.ok ? checkStatement(parsed.value, dimensions, place) : parsed;
      const evaluated = checked.ok ? evaluateStatement(checked.value, values, own) : checked;
      if (!checked.ok || !evaluated.ok) return true;
      const { dimension } = checked.value;
      const { symbol } = resultUnit(dimension, "inch");
      if (symbol === "" || /\./.test(symbol)) return true;
      const { value } = evaluated.value;
      const converted = convertToUnit({ dimension, value, standardUncertainty: 0 }, symbol);
      const { numerator, denominator } = resultUnit(dimension, "inch");
      return converted.ok && Math.abs((converted.value.value * numerator) / denominator - value) <= 1e-12 * Math.abs(value);
    }),
    { numRuns: 2000 },
  );
});
