import { suggestName } from "../base/nearestName.ts";
import { failure, type Outcome, type Problem, success } from "../base/outcome.ts";
import { type Dimension, dimensionless, multiplyDimensions, nameDimension, raiseDimension, sameDimension } from "./dimension.ts";
import { normaliseText } from "./normaliseText.ts";
import { findUnit, type Unit, unit, unitSpellings } from "./units.ts";

/**
 * The unit in which a value of this dimension is shown where nobody has chosen one: mm or in, deg, K, and their products and powers
 * (`mm^2`, `mm/K`, `1/K`, `in/(K·deg)`); of a number a unit without a symbol.
 */
export function resultUnit({ length, angle, temperature }: Dimension, notebook: "mm" | "inch"): Unit {
  const factors: readonly Factor[] = [
    { unit: unit(notebook === "inch" ? "in" : "mm"), exponent: length },
    { unit: unit("deg"), exponent: angle },
    { unit: unit("K"), exponent: temperature },
  ];
  return compoundUnit(factors.filter(({ exponent }) => exponent !== 0));
}

/**
 * A unit from its text: `um`, `mm^2`, `um/K`, `1/K`, `mm/(K·deg)`, with `*` or `·` between factors; everything behind a stroke up to the next
 * factor's end is below it, so that `mm/K/deg` is mm/(K·deg).
 */
export function parseUnit(text: string): Outcome<Unit> {
  const refuse = (what: string, character: number, details: Pick<Problem, "remedy"> = {}) =>
    failure<never>({ at: "", what, expected: "a unit such as mm, mm^2 or um/K", got: text, character, ...details });
  if (text.length > longestUnit) return refuse(`a unit of ${text.length} characters`, 0);
  const normalised = normaliseText(text);
  if (!normalised.ok) return normalised;
  const { text: plain, characterAt } = normalised.value;
  const factors: Factor[] = [];
  /** -1 below a stroke: for one factor, or for all in a bracket. */
  let sign: 1 | -1 = 1;
  let bracketSign: 1 | -1 | undefined;
  let expects: "factor" | "operator" = "factor";
  for (const { 0: piece, index } of plain.matchAll(unitPiece)) {
    const [word = "", power = "1"] = piece.split(/\s*\^\s*/);
    const known = word === "1" ? one : findUnit(word);
    if (expects === "factor" && known) {
      factors.push({ unit: known, exponent: (bracketSign ?? 1) * sign * Number(power) });
      [sign, expects] = [1, "operator"];
    } else if (expects === "operator" && (piece === "*" || piece === "/")) {
      [sign, expects] = [piece === "/" ? -1 : 1, "factor"];
    } else if (expects === "factor" && piece === "(" && bracketSign === undefined) {
      [bracketSign, sign] = [sign, 1];
    } else if (expects === "operator" && piece === ")" && bracketSign !== undefined) {
      bracketSign = undefined;
    } else {
      return refuse(`"${piece}" is not understood in a unit`, characterAt(index), known ? {} : suggestName(word, unitSpellings()));
    }
  }
  if (expects === "factor" || bracketSign !== undefined) return refuse("the unit ends too early", characterAt(plain.length));
  const [only] = factors;
  const parsed =
    only && factors.length === 1 && only.exponent === 1 ? only.unit : compoundUnit(factors.filter((factor) => factor.unit !== one));
  const { numerator, denominator } = parsed;
  const isUsable = Number.isFinite(numerator / denominator) && numerator > 0 && denominator < Number.POSITIVE_INFINITY;
  return isUsable && numerator / denominator > 0 ? success(parsed) : refuse("the powers are too large", 0);
}

/** A value and its standard uncertainty in base units. */
export interface Quantity {
  readonly dimension: Dimension;
  readonly value: number;
  readonly standardUncertainty: number;
}

export interface QuantityInUnit {
  readonly value: number;
  readonly standardUncertainty: number;
  readonly unit: Unit;
}

/** A quantity in a unit that a person typed; refused where the unit is of another dimension. */
export function convertToUnit({ dimension, value, standardUncertainty }: Quantity, unitText: string): Outcome<QuantityInUnit> {
  const parsed = parseUnit(unitText);
  if (!parsed.ok) return parsed;
  const target = parsed.value;
  if (!sameDimension(target.dimension, dimension)) {
    const what = `"${unitText.trim()}" is a unit of ${nameDimension(target.dimension)}`;
    return failure({
      at: "",
      what,
      expected: `a unit of ${nameDimension(dimension)}, such as ${resultUnit(dimension, "mm").symbol || "1"}`,
      got: unitText,
      character: 0,
    });
  }
  const converted = { value: fromBaseUnit(value, target), standardUncertainty: fromBaseUnit(standardUncertainty, target), unit: target };
  if (Number.isFinite(converted.value) && Number.isFinite(converted.standardUncertainty)) return success(converted);
  return failure({ at: "", what: "the value is too large for this unit", got: unitText, character: 0 });
}

/** A value in base units (mm, rad, K and their products) in this unit; within three half units in the last place. */
export function fromBaseUnit(value: number, { numerator, denominator }: Unit): number {
  return (value * denominator) / numerator;
}

interface Factor {
  readonly unit: Unit;
  readonly exponent: number;
}

const one: Unit = { symbol: "", dimension: dimensionless, numerator: 1, denominator: 1 };
const longestUnit = 80;
const unitPiece = /(?:1|\p{L}+)(?:\s*\^\s*-?\d{1,3}(?:\.\d{1,3})?)?|\S/gu;

function compoundUnit(factors: readonly Factor[]): Unit {
  const above = factors.filter(({ exponent }) => exponent > 0).map(describeFactor);
  const below = factors
    .filter(({ exponent }) => exponent < 0)
    .map(({ unit: of, exponent }) => describeFactor({ unit: of, exponent: -exponent }));
  const top = above.join("·");
  return {
    symbol: below.length === 0 ? top : `${top || "1"}/${below.length > 1 ? `(${below.join("·")})` : below[0]}`,
    dimension: factors.reduce(
      (product, factor) => multiplyDimensions(product, raiseDimension(factor.unit.dimension, factor.exponent)),
      dimensionless,
    ),
    numerator: product(factors.map(({ unit: of, exponent }) => (exponent > 0 ? of.numerator ** exponent : of.denominator ** -exponent))),
    denominator: product(factors.map(({ unit: of, exponent }) => (exponent > 0 ? of.denominator ** exponent : of.numerator ** -exponent))),
  };
}

function describeFactor({ unit: { symbol }, exponent }: Factor): string {
  return exponent === 1 ? symbol : `${symbol}^${Number(exponent.toPrecision(6))}`;
}

function product(factors: readonly number[]): number {
  return factors.reduce((total, factor) => total * factor, 1);
}
