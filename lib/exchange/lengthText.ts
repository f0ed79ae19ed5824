import { millimetresPerInch } from "../base/quantity.ts";
import { parseNumber } from "../formula/parseNumber.ts";

export type LengthUnit = "mm" | "inch";

/** A length as a source has it: digits with a decimal point, and the unit that they are in. */
export interface TypedLength {
  readonly digits: string;
  readonly unit: LengthUnit;
}

/** As files write numbers: a decimal point, no thousands marks, which could be decimal commas. */
const fileNumber = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?$/i;

/** The number that a file states, as its digits; undefined where it is none. */
export function digitsOf(text: string): string | undefined {
  const number = fileNumber.test(text.trim()) ? parseNumber(text.trim().replace(/^\+/, "")) : undefined;
  return number?.ok ? number.value.understoodAs : undefined;
}

/** The entry of a length in a document whose bare numbers have this unit: other units are written behind. */
export function lengthEntry({ digits, unit }: TypedLength, bare: LengthUnit): string {
  return unit === bare ? digits : `${digits} ${unitText(unit)}`;
}

export function unitText(unit: LengthUnit): string {
  return unit === "inch" ? "in" : "mm";
}

/** a - b with the decimals of the more precise of the two: what decimals state exactly is told exactly. */
export function difference(a: string, b: string): string {
  return atDecimals(Number(a) - Number(b), Math.max(decimalsOf(a), decimalsOf(b)));
}

/** The number times a power of ten, by moving its decimal point. */
export function movedPoint(digits: string, power: number): string {
  const [mantissa = "", exponent = "0"] = digits.toLowerCase().split("e");
  return String(Number(`${mantissa}e${Number(exponent) + power}`));
}

/** A unit of length as millimetres or inches: so many powers of ten of them, times a whole number. */
export interface UnitScale {
  readonly unit: LengthUnit;
  /** 0 when left out. */
  readonly power?: number;
  /** 1 when left out. */
  readonly times?: number;
}

/** The number in millimetres or inches; exact, as the factors are. */
export function scaled(digits: string, { power = 0, times = 1 }: UnitScale): string {
  return timesExact(power === 0 ? digits : movedPoint(digits, power), times, 0);
}

/** Lengths in one unit: their own where they share it, else millimetres, which inches are exactly. */
export function inOneUnit<T extends Readonly<Record<string, TypedLength | undefined>>>(
  lengths: T,
  otherwise: LengthUnit,
): { readonly unit: LengthUnit; readonly digits: Readonly<Record<keyof T, string | undefined>> } {
  const units = new Set(Object.values(lengths).flatMap((length) => (length === undefined ? [] : [length.unit])));
  const [only = otherwise] = units;
  const unit = units.size > 1 ? "mm" : only;
  const entries = Object.entries(lengths).map(([key, length]) => [key, length === undefined ? undefined : digitsIn(length, unit)]);
  return { unit, digits: Object.fromEntries(entries) as Record<keyof T, string | undefined> };
}

function digitsIn({ digits, unit }: TypedLength, wanted: LengthUnit): string {
  return unit === wanted ? digits : timesExact(digits, millimetresPerInch, 1);
}

/** @param decimals of the factor */
function timesExact(digits: string, factor: number, decimals: number): string {
  return factor === 1 ? digits : atDecimals(Number(digits) * factor, decimalsOf(digits) + decimals);
}

function decimalsOf(digits: string): number {
  const [mantissa = "", exponent = "0"] = digits.toLowerCase().split("e");
  return Math.max(0, (mantissa.split(".")[1]?.length ?? 0) - Number(exponent));
}

function atDecimals(value: number, decimals: number): string {
  const text = value.toFixed(Math.min(decimals, 20));
  return /[1-9]/.test(text) ? text : text.replace("-", "");
}
