export interface ReportRounding {
  /** Significant digits of the uncertainty, 1 to 4; 2 unless given (JCGM 100:2008, 7.2.6: "usually at most two"). */
  readonly digits?: number;
  /** `nearest` unless given. `up` never states less than was found (JCGM 100:2008, 7.2.6: 10.47 mΩ to 11 mΩ). */
  readonly direction?: "nearest" | "up";
  /** Decimals of a value whose uncertainty is exactly zero; 6 unless given. */
  readonly decimalsWhenExact?: number;
}

export interface ReportedValue {
  readonly value: string;
  readonly standardUncertainty: string;
  /** Decimals of both; negative where the last digit kept stands left of the units. */
  readonly decimals: number;
}

/**
 * A value and its standard (or expanded) uncertainty as they are reported: the
 * uncertainty to two significant digits, the value to the same decimal
 * (JCGM 100:2008, 7.2.6). Both are strings, because 0.10 is not 0.1.
 *
 * @throws RangeError if the value is not finite, or the uncertainty is negative or not finite
 */
export function formatWithUncertainty(value: number, standardUncertainty: number, rounding: ReportRounding = {}): ReportedValue {
  const { digits = 2, direction = "nearest", decimalsWhenExact = 6 } = rounding;
  if (!Number.isFinite(value)) throw new RangeError(`value: expected a finite number, got ${value}`);
  if (!(standardUncertainty >= 0 && standardUncertainty < Number.POSITIVE_INFINITY)) {
    throw new RangeError(`standardUncertainty: expected a finite number >= 0, got ${standardUncertainty}`);
  }
  if (!(Number.isInteger(digits) && digits >= 1 && digits <= 4)) throw new RangeError(`digits: expected 1 to 4, got ${digits}`);
  if (standardUncertainty === 0)
    return { value: formatFixed(value, decimalsWhenExact), standardUncertainty: "0", decimals: decimalsWhenExact };
  const { rounded, exponent } = roundSignificant(standardUncertainty, digits, direction);
  const decimals = Math.min(digits - 1 - exponent, mostDecimals);
  return { value: formatFixed(value, decimals), standardUncertainty: formatFixed(rounded, decimals), decimals };
}

/**
 * A number with this many decimals, rounded to nearest.
 *
 * What is rounded is the number that the double holds: 1.005 is stored a little
 * below and gives 1.00; exact ties, which only doubles such as 0.125 or 2.5 can
 * be, go away from zero (JCGM 100:2008, 7.2.6 leaves them free; ISO 80000-1:2009,
 * B.3, rule B). Never "-0.000". With negative decimals, whole tens, hundreds …
 *
 * @throws RangeError if the value is not below 1e21, or decimals is no whole number from −20 to 20
 */
export function formatFixed(value: number, decimals: number): string {
  // From 1e21 on, toFixed turns to exponents.
  if (!(Math.abs(value) < 1e21)) throw new RangeError(`value: expected a number below 1e21, got ${value}`);
  if (!(Number.isInteger(decimals) && Math.abs(decimals) <= mostDecimals))
    throw new RangeError(`decimals: expected -20 to 20, got ${decimals}`);
  // ECMA-262, Number.prototype.toFixed, compares exactly and takes the larger of two equally near magnitudes.
  const text = decimals >= 0 ? value.toFixed(decimals) : roundToMultiple(value, 10 ** -decimals).toFixed(0);
  return /[1-9]/.test(text) ? text : text.replace("-", "");
}

const mostDecimals = 20;

/** The value with `digits` significant digits, and the power of ten of the first of them after rounding. */
function roundSignificant(value: number, digits: number, direction: "nearest" | "up"): { rounded: number; exponent: number } {
  // Exact in ECMA-262 too, and 0.0996 becomes 1.0e-1 with the exponent already right.
  const nearest = value.toExponential(digits - 1);
  const raised = direction === "up" && Number(nearest) < value ? raiseLastDigit(nearest) : nearest;
  return { rounded: Number(raised), exponent: Number(raised.split("e")[1]) };
}

/** `9.9e-2` to `1.0e-1`. */
function raiseLastDigit(text: string): string {
  const [mantissa = "", exponent = ""] = text.split("e");
  const fraction = mantissa.split(".")[1] ?? "";
  const digits = String(Number(mantissa.replace(".", "")) + 1);
  return Number(`${digits}e${Number(exponent) - fraction.length}`).toExponential(fraction.length);
}

function roundToMultiple(value: number, step: number): number {
  // The remainder of two doubles is exact, the quotient of them is not.
  const remainder = value % step;
  const away = Math.abs(remainder) * 2 >= step ? Math.sign(remainder) * step : 0;
  return value - remainder + away;
}
