import { fromBaseUnit } from "../../formula/resultUnit.ts";
import type { Unit } from "../../formula/units.ts";
import { formatFixed, formatWithUncertainty } from "../../uncertainty/roundForReport.ts";

/** Writes values of one dimension that are known about as well as each other. */
export interface OwnWriter {
  value(value: number): string;
  /** A part of a value, to one digit more. */
  part(value: number): string;
  uncertainty(standardUncertainty: number): string;
  /** Whether the digits that are reported tell two values apart. */
  tellsApart(a: number, b: number): boolean;
}

/** Digits of a value without doubt: fewer than a double holds, so that the rounding of an inch does not show. */
const exactDigits = 12;
/** From here on, and below its inverse, a number is written with a power of ten. */
const largest = 1e12;

/** @param standardUncertainty by whose second significant digit values are rounded, in the base unit; 0 for values without doubt */
export function ownWriter(unit: Unit, standardUncertainty: number): OwnWriter {
  const inUnit = (value: number) => fromBaseUnit(value, unit);
  const behind = unit.symbol === "" ? "" : ` ${unit.symbol}`;
  const doubt = inUnit(standardUncertainty);
  const decimals = doubt > 1 / largest && doubt < largest ? formatWithUncertainty(0, doubt).decimals : undefined;
  const written = (value: number, more: number): string => {
    const own = inUnit(value);
    if (Math.abs(own) >= largest || (decimals === undefined && own !== 0 && Math.abs(own) <= 1 / largest)) return own.toExponential(5);
    return decimals === undefined ? String(Number(own.toPrecision(exactDigits))) : formatFixed(own, Math.min(decimals + more, 15));
  };
  return {
    value: (value) => written(value, 0) + behind,
    part: (value) => written(value, 1) + behind,
    uncertainty: (value) => {
      const own = inUnit(value);
      const isPlain = own === 0 || (own > 1 / largest && own < largest);
      return (isPlain ? formatWithUncertainty(0, own).standardUncertainty : own.toExponential(1)) + behind;
    },
    tellsApart: (a, b) =>
      decimals === undefined || Math.abs(inUnit(b - a)) >= largest ? written(a, 0) !== written(b, 0) : /[1-9]/.test(written(b - a, 0)),
  };
}
