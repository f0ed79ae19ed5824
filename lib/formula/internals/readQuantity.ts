import { suggestName } from "../../base/nearestName.ts";
import { failure, type Outcome, type Problem, success } from "../../base/outcome.ts";
import { Tape } from "../../uncertainty/tape.ts";
import type { Uncertain } from "../../uncertainty/uncertain.ts";
import { checkDimensions } from "../checkDimensions.ts";
import {
  angleDimension,
  type Dimension,
  describeDimension,
  lengthDimension,
  nameDimension,
  remedyForAngle,
  sameDimension,
  temperatureDimension,
} from "../dimension.ts";
import { evaluateExpression } from "../evaluateExpression.ts";
import { type Expression, namesIn } from "../expression.ts";
import { formatExpression } from "../formatExpression.ts";
import type { Names } from "../names.ts";
import { normaliseText } from "../normaliseText.ts";
import { numberArithmetic } from "../numberArithmetic.ts";
import { parseExpression } from "../parseExpression.ts";
import { type NumberOptions, type ParsedNumber, parseNumber } from "../parseNumber.ts";
import { uncertainArithmetic } from "../uncertainArithmetic.ts";
import { findUnit, toBaseUnit, type Unit, unitSpellings } from "../units.ts";

/** A typed quantity; `value` and `resolution` are in the base unit (mm, rad, K). */
export interface ParsedQuantity<T extends number = number> {
  readonly value: T;
  readonly text: string;
  /** Symbol of the unit typed behind a single number; undefined for a bare number and for a formula. */
  readonly typedUnit: string | undefined;
  /** Decimals of a single number as typed, in its own unit; undefined for a formula. */
  readonly decimals: number | undefined;
  /** One step of the last decimal typed; undefined for a formula. */
  readonly resolution: T | undefined;
  /** `2.5 in = 63.5 mm`: how the text was read. */
  readonly understoodAs: string;
  /** The names in a formula. */
  readonly uses: readonly string[];
  /** Where they have brought a doubt with them: the value with its sources. */
  readonly doubtful?: Uncertain;
}

export interface QuantityOptions extends NumberOptions {
  /** What names stand for; without them none is known. */
  readonly names?: Names | undefined;
}

/** A text and the place it stands in. */
export interface Place {
  readonly text: string;
  readonly bareUnit: Unit;
  readonly options: QuantityOptions;
}

/** A quantity in any spelling: decimal commas, trailing minus, full-width digits, exponents; and formulas. */
export function readQuantity(place: Place): Outcome<ParsedQuantity> {
  const { text, options, bareUnit } = place;
  if (text.trim() === "")
    return failure({
      at: "",
      what: "nothing is typed",
      expected: `${describeDimension(bareUnit.dimension)} such as 1 ${bareUnit.symbol}`,
      got: text,
    });
  const normalised = text.length <= longestNumber ? normaliseText(text) : undefined;
  if (normalised?.ok) {
    const [head, unitText] = splitUnit(normalised.value.text);
    if (isOneNumber(head)) {
      const character = normalised.value.characterAt(head.length);
      const number = parseNumber(text.slice(0, character), options);
      return number.ok
        ? finishNumber(number.value, { text: unitText, character }, place)
        : failure(...number.problems.map((problem) => ({ ...problem, got: text })));
    }
  }
  return parseFormula(place);
}

/** What stands behind a number, normalised, and where in the text as typed. */
export interface UnitText {
  readonly text: string;
  readonly character: number;
}

/** The quantity of a number already read and the unit behind it. */
export function finishNumber(number: ParsedNumber, behind: UnitText, { text, bareUnit }: Place): Outcome<ParsedQuantity> {
  const typed = behind.text === "" ? bareUnit : findUnit(behind.text);
  if (typed === undefined || !sameDimension(typed.dimension, bareUnit.dimension)) return failure(complainAboutUnit(behind, text, bareUnit));
  const value = toBaseUnit(number.value, typed, number.decimals);
  if (!Number.isFinite(value)) return failure({ at: "", what: "the number is too large", got: text });
  const resolution = toBaseUnit(1 / 10 ** number.decimals, typed, number.decimals);
  const typedUnit = behind.text === "" ? undefined : typed.symbol;
  return success({
    value,
    text,
    typedUnit,
    decimals: number.decimals,
    resolution,
    understoodAs: describeNumber(number.understoodAs, typed, value),
    uses: none,
  });
}

const longestNumber = 100;
const none: readonly never[] = [];

/** Everything before the letters at the end, and those letters; `1e3` ends in no letters. */
function splitUnit(text: string): readonly [head: string, unitText: string] {
  const end = text.trimEnd();
  let start = end.length;
  while (start > 0 && /\p{L}/u.test(end.charAt(start - 1))) start--;
  return [end.slice(0, start), end.slice(start)];
}

/** Whether a text, normalised, is one number and not a formula: no blank between digits, and a sign only at its ends or in its exponent. */
function isOneNumber(head: string): boolean {
  const body = head.trim().replace(/^[+-]/, "").replace(/-$/, "").trim();
  return /^[\d.,'\u00a0]*[\d.,](?:e[+-]?\d+)?$/i.test(body) && /\d/.test(body);
}

function parseFormula({ text, bareUnit, options }: Place): Outcome<ParsedQuantity> {
  const parsed = parseExpression(text, options);
  if (!parsed.ok) return parsed;
  const complain = (problem: Problem): Outcome<never> => failure({ ...problem, got: text });
  const uses = namesIn(parsed.value);
  for (const name of uses) {
    const problem = options.names?.problemOf(name);
    if (problem) return complain({ at: "", character: characterOf(name, parsed.value), ...problem });
  }
  const checked = checkDimensions(parsed.value, options.names?.dimensions ?? new Map<string, Dimension>(), bareUnit);
  if (!checked.ok) return failure(...checked.problems.map((problem) => ({ ...problem, got: text })));
  const { expression, dimension, isBare } = checked.value;
  if (!isBare && !sameDimension(dimension, bareUnit.dimension)) {
    const remedy = remedyForAngle(dimension, bareUnit.dimension);
    const expected = describeDimension(bareUnit.dimension);
    return complain({ at: "", what: `the formula gives ${describeDimension(dimension)}`, expected, ...(remedy && { remedy }) });
  }
  const evaluated = evaluateFormula(expression, options.names);
  if (!evaluated.ok) return failure(...evaluated.problems.map((problem) => ({ ...problem, got: text })));
  const { value: number, doubtful } = evaluated.value;
  const value = (isBare ? toBaseUnit(number, bareUnit) : number) + 0;
  if (!Number.isFinite(value)) return complain({ at: "", what: "the result is too large" });
  const understoodAs = describeFormula(expression, isBare ? number : undefined, value, bareUnit);
  return success({
    value,
    text,
    typedUnit: undefined,
    decimals: undefined,
    resolution: undefined,
    understoodAs,
    uses,
    ...(doubtful && { doubtful }),
  });
}

function evaluateFormula(
  expression: Expression,
  names: Names | undefined,
): Outcome<{ readonly value: number; readonly doubtful?: Uncertain }> {
  if (names === undefined || namesIn(expression).length === 0) {
    const plain = evaluateExpression(expression, numberArithmetic, new Map<string, number>());
    return plain.ok ? success({ value: plain.value }) : plain;
  }
  const evaluated = evaluateExpression(expression, uncertainArithmetic, names.values);
  if (!evaluated.ok) return evaluated;
  const { value } = evaluated.value;
  return success(isInDoubt(evaluated.value) ? { value, doubtful: evaluated.value } : { value });
}

function isInDoubt(value: Uncertain): boolean {
  return value.operation.kind !== "constant" && new Tape([value]).sources.length > 0;
}

/** Where a name stands first. */
function characterOf(name: string, expression: Expression): number {
  switch (expression.kind) {
    case "name":
      return expression.name === name ? expression.character : Number.POSITIVE_INFINITY;
    case "negate":
      return characterOf(name, expression.operand);
    case "operation":
      return Math.min(characterOf(name, expression.left), characterOf(name, expression.right));
    case "call":
      return Math.min(...expression.arguments.map((argument) => characterOf(name, argument)));
    default:
      return Number.POSITIVE_INFINITY;
  }
}

function describeFormula(expression: Expression, bareValue: number | undefined, value: number, bareUnit: Unit): string {
  const base = baseSymbol(bareUnit);
  const inBareUnit = bareValue === undefined || base === bareUnit.symbol ? "" : ` = ${roundedText(bareValue)} ${bareUnit.symbol}`;
  return `${formatExpression(expression)}${inBareUnit} = ${base === undefined ? `${roundedText(value)}` : `${roundedText(value)} ${base}`}`;
}

/** The unit in which values are held; compounds have none of their own. */
function baseSymbol({ dimension }: Unit): string | undefined {
  if (sameDimension(dimension, lengthDimension)) return "mm";
  if (sameDimension(dimension, angleDimension)) return "rad";
  return sameDimension(dimension, temperatureDimension) ? "K" : undefined;
}

/** Twelve digits: below a picometre on any machine, and free of the last bits' noise. */
function roundedText(value: number): string {
  return String(Number(value.toPrecision(12)));
}

function describeNumber(number: string, typed: Unit, value: number): string {
  const base = baseSymbol(typed);
  return base === undefined || base === typed.symbol
    ? `${number} ${typed.symbol}`
    : `${number} ${typed.symbol} = ${roundedText(value)} ${base}`;
}

function complainAboutUnit({ text: unitText, character }: UnitText, text: string, { dimension, symbol }: Unit): Problem {
  const known = findUnit(unitText);
  const expected = `${describeDimension(dimension)} such as 1 ${symbol}`;
  if (known) return { at: "", what: `"${unitText}" is a unit of ${nameDimension(known.dimension)}`, expected, got: text, character };
  const alike = [...unitSpellings()].filter((spelling) => sameDimension(findUnit(spelling)?.dimension ?? dimension, dimension));
  return { at: "", what: `"${unitText}" is not a unit known here`, ...suggestName(unitText, alike), expected, got: text, character };
}
