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

/** The number times a whole one, with its own decimals. */
export function timesWhole(digits: string, factor: number): string {
  return factor === 1 ? digits : atDecimals(Number(digits) * factor, decimalsOf(digits));
}

function decimalsOf(digits: string): number {
  const [mantissa = "", exponent = "0"] = digits.toLowerCase().split("e");
  return Math.max(0, (mantissa.split(".")[1]?.length ?? 0) - Number(exponent));
}

function atDecimals(value: number, decimals: number): string {
  const text = value.toFixed(Math.min(decimals, 20));
  return /[1-9]/.test(text) ? text : text.replace("-", "");
}
