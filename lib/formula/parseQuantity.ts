import { type Outcome, success } from "../base/outcome.ts";
import { type Kelvin, kelvin, type Mm, mm, type Radian, radian } from "../base/quantity.ts";
import { angleDimension, type Dimension, describeDimension, lengthDimension, sameDimension, temperatureDimension } from "./dimension.ts";
import { finishNumber, type ParsedQuantity, type QuantityOptions, readQuantity } from "./internals/readQuantity.ts";
import type { NumberOptions, ParsedNumber } from "./parseNumber.ts";
import { findUnit, type Unit, type UnitSymbol, unit } from "./units.ts";

export type { ParsedQuantity, QuantityOptions } from "./internals/readQuantity.ts";

/** A length in mm; a bare number takes `unit`. */
export function parseLength(
  text: string,
  { unit: bare, ...options }: QuantityOptions & { readonly unit: "mm" | "inch" },
): Outcome<ParsedQuantity<Mm>> {
  return branded(parseQuantity(text, lengthDimension, unit(bare === "inch" ? "in" : "mm"), options), mm);
}

/** An angle in radians; a bare number takes `unit`. */
export function parseAngle(
  text: string,
  { unit: bare, ...options }: QuantityOptions & { readonly unit: UnitSymbol & ("deg" | "rad" | "mrad" | "arcmin" | "arcsec") },
): Outcome<ParsedQuantity<Radian>> {
  return branded(parseQuantity(text, angleDimension, unit(bare), options), radian);
}

/** A difference of temperatures in kelvins, which a bare number takes and a degree Celsius equals. */
export function parseTemperatureDifference(text: string, options: NumberOptions = {}): Outcome<ParsedQuantity<Kelvin>> {
  return branded(parseQuantity(text, temperatureDimension, unit("K"), options), kelvin);
}

/**
 * A quantity of this dimension from typed text: a number, a number with a unit,
 * or a formula of them (`6 mm / 2`, `(12.5 + 0.1 in) / 2`).
 *
 * A bare number takes `bareUnit`; so does a formula of bare numbers alone, as a
 * whole, and a bare number in a sum with a quantity of this dimension. In a
 * product it stays a number. `understoodAs` says so each time.
 *
 * Single numbers never reach the formula parser; formulas are remembered.
 *
 * @throws RangeError if `bareUnit` is not of `dimension`
 */
export function parseQuantity(text: string, dimension: Dimension, bareUnit: Unit, options: QuantityOptions = {}): Outcome<ParsedQuantity> {
  if (!sameDimension(dimension, bareUnit.dimension)) {
    throw new RangeError(`bareUnit: expected a unit of ${describeDimension(dimension)}, got ${bareUnit.symbol}`);
  }
  const place = { text, bareUnit, options };
  if (options.decimalMark !== ",") {
    const plain = plainQuantity.exec(text);
    const [unitText = ""] = plain?.slice(4) ?? [];
    if (plain) return finishNumber(plainNumber(plain), { text: unitText, character: text.lastIndexOf(unitText) }, place);
  }
  if (findUnit(bareUnit.symbol) !== bareUnit) return readQuantity(place);
  const key = `${bareUnit.symbol} ${options.decimalMark ?? ""} ${text}`;
  const known = remembered.get(key);
  if (known?.ok || (known && options.names === undefined)) return known;
  const outcome = readQuantity(place);
  // What rests on names is another tomorrow.
  if (options.names !== undefined && (!outcome.ok || outcome.value.uses.length > 0)) return outcome;
  if (remembered.size >= mostRemembered) remembered.clear();
  if (text.length <= longestRemembered) remembered.set(key, outcome);
  return outcome;
}

/** The same text always gives the same outcome, so that remembering it changes nothing but the time. */
const remembered = new Map<string, Outcome<ParsedQuantity>>();
const mostRemembered = 2000;
const longestRemembered = 200;

/** Sign, whole and decimals, unit: what nearly every entry of a setup is. At most 15 digits each, so that nothing can overflow. */
const plainQuantity = /^[ \t]*([+-]?)(?:(\d{1,15})(?:\.(\d{0,15}))?)[ \t]*([A-Za-z]{0,8})[ \t]*$/;

function plainNumber([, sign = "", whole = "", decimals = ""]: RegExpExecArray): ParsedNumber {
  const digits = decimals === "" ? whole : `${whole}.${decimals}`;
  const value = Number(digits);
  if (sign !== "-" || value === 0) return { value, decimals: decimals.length, understoodAs: digits };
  return { value: -value, decimals: decimals.length, understoodAs: `-${digits}` };
}

function branded<T extends number>(outcome: Outcome<ParsedQuantity>, brand: (value: number) => T): Outcome<ParsedQuantity<T>> {
  if (!outcome.ok) return outcome;
  const { value, resolution } = outcome.value;
  return success({ ...outcome.value, value: brand(value), resolution: resolution === undefined ? undefined : brand(resolution) });
}
