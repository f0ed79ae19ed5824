import { formatFixed } from "../../lib/uncertainty/roundForReport.ts";

/** Below this, chances rest on the far tails of assumed distributions more than on anything known. */
export const smallestTold = 1e-9;

/** Chance of being outside in words that can be pictured: `41 %`, `1 in 3 000`, `2 in a million`. */
export function chanceInWords(outside: number): string {
  const chance = checkedChance(outside);
  if (chance === 0) return "none";
  if (chance < smallestTold) return "less than 1 in a thousand million";
  if (chance < 1e-6) return `${significant(chance * 1e9)} in a thousand million`;
  if (chance < 1e-5) return `${significant(chance * 1e6)} in a million`;
  if (chance <= 0.1) return `1 in ${significant(1 / chance)}`;
  return formatMet(chance);
}

/** The same as a number with two digits: `0.00033`, `3.3 × 10⁻⁶`. */
export function chanceInDigits(outside: number): string {
  const chance = checkedChance(outside);
  if (chance === 0) return "0";
  if (chance < smallestTold) return `below ${power(-9)}`;
  return inTwoDigits(chance);
}

/** A plain ratio above 0 with two significant digits: `0.00033`, `3.3 × 10⁻⁶`. */
export function inTwoDigits(ratio: number): string {
  if (ratio >= 1e-4) return String(Number(ratio.toPrecision(2)));
  const [mantissa, exponent] = ratio.toExponential(1).split("e") as [string, string];
  return `${mantissa} × ${power(Number(exponent))}`;
}

/**
 * Chance of being met, in percent: one digit of what is missing to 100 %, two
 * decimals at most. Never 0 % or 100 %: nothing here is certain.
 */
export function formatMet(chance: number): string {
  const met = checkedChance(chance);
  if (1 - met < 5e-5) return "> 99.99 %";
  if (met < 5e-5) return "< 0.01 %";
  const nearest = Math.min(met, 1 - met);
  const decimals = Math.min(2, Math.max(0, -Math.floor(Math.log10(nearest)) - 2));
  const text = formatFixed(met * 100, decimals);
  // 99.96 must not become 100.0.
  return `${Number(text) === 100 || Number(text) === 0 ? formatFixed(met * 100, decimals + 1) : text} %`;
}

/** A share of something in percent: `31 %`, `5.2 %`; what is there and does not show is `< 0.1 %`. */
export function formatShare(share: number): string {
  if (!Number.isFinite(share)) throw new RangeError(`share: expected a finite number, got ${share}`);
  const percent = share * 100;
  if (percent !== 0 && Math.abs(percent) < 0.05) return "< 0.1 %";
  // What is just over must not look as if it were just met.
  if (Math.abs(percent - 100) > 1e-9 && Math.round(percent) === 100) {
    const text = formatFixed(percent, 1);
    return text === "100.0" ? (percent < 100 ? "> 99.9 %" : "> 100 %") : `${text} %`;
  }
  return `${percent !== 0 && Math.abs(percent) < 9.95 ? Number(percent.toPrecision(2)) : groups(Math.round(percent))} %`;
}

/** Thousands apart by a narrow space (ISO 80000-1:2009, 7.3.1). */
export function groups(value: number): string {
  return String(value).replace(/\B(?=(\d{3})+$)/g, "\u202f");
}

/** A count with two significant digits. */
function significant(value: number): string {
  return groups(Math.max(1, Math.round(Number(value.toPrecision(2)))));
}

function power(exponent: number): string {
  return `10⁻${Array.from(String(-exponent), (digit) => "⁰¹²³⁴⁵⁶⁷⁸⁹"[Number(digit)]).join("")}`;
}

/** Chances from inversions may leave 0 to 1 by their own error. */
function checkedChance(chance: number): number {
  if (!(chance >= -1e-6 && chance <= 1 + 1e-6)) throw new RangeError(`chance: expected 0 to 1, got ${chance}`);
  return Math.min(1, Math.max(0, chance));
}
