import { angleDimension, type Dimension, dimensionless, lengthDimension, raiseDimension, temperatureDimension } from "./dimension.ts";

/**
 * A unit: one of it is `numerator / denominator` of the base unit of its
 * dimension (mm, rad, K; of compounds their products).
 *
 * The factor is kept as a fraction of two exactly known numbers so that a typed
 * decimal is rounded once and not twice; only π needs rounding by itself.
 */
export interface Unit {
  /** As it is written back to a person: `mm`, `in`, `deg`. */
  readonly symbol: string;
  readonly dimension: Dimension;
  readonly numerator: number;
  readonly denominator: number;
}

/**
 * The unit of this spelling, upper and lower case told apart; undefined if
 * there is none.
 *
 * Not accepted, on purpose: `"` and `″` (inch on one drawing, second of arc on
 * another), `'` (foot or minute of arc), and the degree Fahrenheit (the zero of
 * its scale differs from the Celsius one, so `26 degC - 68 degF` would come out
 * wrong without a word). `degC` is the size of a kelvin and stands for
 * differences alone.
 */
export function findUnit(spelling: string): Unit | undefined {
  return unitsBySpelling.get(spelling);
}

/** The unit of a symbol that is known to exist. */
export function unit(symbol: UnitSymbol): Unit {
  return unitTable[symbol];
}

/** What a number by itself is in. */
export const plainNumber: Unit = { symbol: "", dimension: dimensionless, numerator: 1, denominator: 1 };

/** In which coefficients of expansion are told. */
export const millionthPerKelvin: Unit = {
  symbol: "1e-6/K",
  dimension: raiseDimension(temperatureDimension, -1),
  numerator: 1,
  denominator: 1e6,
};

/** Every accepted spelling, for suggestions and for the list of reserved names. */
export function unitSpellings(): Iterable<string> {
  return unitsBySpelling.keys();
}

/**
 * A value of `unit` in the base unit of its dimension.
 *
 * @param decimals of the value as it was typed. With it the result is the
 *   double nearest to the exact decimal product (`0.1 in` is the double 2.54):
 *   the digits as an integer, the numerator and the power of ten are all exact,
 *   so that the one division is the only rounding. Without it the error is at
 *   most three half units in the last place.
 */
export function toBaseUnit(value: number, { numerator, denominator }: Unit, decimals?: number): number {
  const scale = decimals === undefined ? undefined : exactPowersOfTen[decimals];
  if (scale !== undefined && Number.isInteger(numerator)) {
    const digits = Math.round(value * scale);
    const exact = Math.abs(digits * numerator) <= Number.MAX_SAFE_INTEGER && digits / scale === value;
    if (exact) return (digits * numerator) / (scale * denominator);
  }
  return (value * numerator) / denominator;
}

export type UnitSymbol = keyof typeof unitTable;

/** Up to here a power of ten, also times the largest denominator below, is a double without rounding. */
const exactPowersOfTen = [1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15];

/**
 * Sources: prefixes SI Brochure, 9th edition (2019), table 7; degree, minute and
 * second of arc π/180, π/10 800 and π/648 000 rad, table 8; inch exactly 25.4 mm,
 * foot exactly 304.8 mm, mil (thou) 0.001 in, microinch 0.000 001 in, NIST SP 811
 * (2008), appendix B.8; a difference of one degree Celsius is one kelvin, SI
 * Brochure 2.3.1 (kelvin) and NIST SP 811, 8.5.
 */
const unitTable = {
  nm: length("nm", 1, 1e6),
  um: length("um", 1, 1000),
  mm: length("mm", 1, 1),
  cm: length("cm", 10, 1),
  m: length("m", 1000, 1),
  uin: length("uin", 254, 1e7),
  thou: length("thou", 254, 1e4),
  mil: length("mil", 254, 1e4),
  in: length("in", 254, 10),
  ft: length("ft", 3048, 10),
  urad: angle("urad", 1, 1e6),
  mrad: angle("mrad", 1, 1000),
  rad: angle("rad", 1, 1),
  deg: angle("deg", Math.PI, 180),
  arcmin: angle("arcmin", Math.PI, 10_800),
  arcsec: angle("arcsec", Math.PI, 648_000),
  mK: temperature("mK", 1, 1000),
  K: temperature("K", 1, 1),
  degC: temperature("degC", 1, 1),
};

/** μ is the Greek letter (U+03BC), into which the text's normalisation turns the micro sign. */
const unitsBySpelling: ReadonlyMap<string, Unit> = new Map<string, Unit>([
  ...Object.entries(unitTable),
  ["μm", unitTable.um],
  ["μin", unitTable.uin],
  ["μrad", unitTable.urad],
  ["inch", unitTable.in],
]);

function length(symbol: string, numerator: number, denominator: number): Unit {
  return { symbol, dimension: lengthDimension, numerator, denominator };
}

function angle(symbol: string, numerator: number, denominator: number): Unit {
  return { symbol, dimension: angleDimension, numerator, denominator };
}

function temperature(symbol: string, numerator: number, denominator: number): Unit {
  return { symbol, dimension: temperatureDimension, numerator, denominator };
}
