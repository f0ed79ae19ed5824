import { millimetresPerInch } from "../../lib/base/quantity.ts";
import type { Stack } from "../../lib/tolerance/stack.ts";
import { formatFixed, formatWithUncertainty } from "../../lib/uncertainty/roundForReport.ts";

/**
 * The unit in which a figure shows its numbers: lengths (mm inside) in
 * millimetres or inches, angles (radians inside) in degrees, anything else by a
 * symbol and the number by which the inner value is multiplied.
 */
export type DisplayUnit = "mm" | "inch" | "degree" | { readonly symbol: string; readonly factor: number };

/** The unit in which a characteristic is shown: degrees of an angle, else the one that lengths are shown in. */
export function unitOfStack({ unit }: Pick<Stack, "unit">, lengths: DisplayUnit): DisplayUnit {
  return unit === "rad" ? "degree" : lengths;
}

/** Writes values of one unit. */
export interface UnitWriter {
  /** Follows a number: ` mm`, ` in`, `°`; empty for a plain number. */
  readonly suffix: string;
  readonly factor: number;
  /** A value to the decimals of its standard (or expanded) uncertainty, and that to two digits. */
  withUncertainty(value: number, uncertainty: number): { readonly value: string; readonly uncertainty: string; readonly decimals: number };
  /** A value with so many decimals. */
  fixed(value: number, decimals: number): string;
  /** The same with its sign, whichever it is. */
  signed(value: number, decimals: number): string;
  /** A number as a drawing states it: as many decimals as it needs, six significant digits at most. */
  stated(value: number): string;
  /** The same with its sign; `0` for none. */
  statedSigned(value: number): string;
}

export function writerOf(unit: DisplayUnit): UnitWriter {
  const { suffix, factor } = known(unit);
  const fixed = (value: number, decimals: number) => typographic(formatFixed(value * factor, decimals));
  const stated = (value: number) => typographic(shortest(value * factor));
  return {
    suffix,
    factor,
    withUncertainty(value, uncertainty) {
      const reported = formatWithUncertainty(value * factor, uncertainty * factor);
      return { value: typographic(reported.value), uncertainty: reported.standardUncertainty, decimals: reported.decimals };
    },
    fixed,
    signed: (value, decimals) => withSign(fixed(value, decimals)),
    stated,
    statedSigned: (value) => withSign(stated(value)),
  };
}

function known(unit: DisplayUnit): { suffix: string; factor: number } {
  if (unit === "mm") return { suffix: " mm", factor: 1 };
  if (unit === "inch") return { suffix: " in", factor: 1 / millimetresPerInch };
  if (unit === "degree") return { suffix: "°", factor: 180 / Math.PI };
  if (!Number.isFinite(unit.factor)) throw new RangeError(`unit: expected a finite factor, got ${unit.factor}`);
  return { suffix: unit.symbol === "" ? "" : ` ${unit.symbol}`, factor: unit.factor };
}

/** Six significant digits are finer than any drawing states; they drop the noise of inches kept in millimetres. */
function shortest(value: number): string {
  const rounded = Number(value.toPrecision(6));
  if (rounded === 0) return "0";
  const decimals = Math.min(20, Math.max(0, 5 - Math.floor(Math.log10(Math.abs(rounded)))));
  const text = formatFixed(rounded, decimals);
  return text.includes(".") ? text.replace(/\.?0+$/, "") : text;
}

/** A minus sign instead of a hyphen, as drawings and standards print it. */
function typographic(text: string): string {
  return text.replace("-", "−");
}

function withSign(text: string): string {
  return text.startsWith("−") || !/[1-9]/.test(text) ? text : `+${text}`;
}
