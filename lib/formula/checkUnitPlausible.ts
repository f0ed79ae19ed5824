import type { Problem } from "../base/outcome.ts";
import { type Mm, millimetresPerInch } from "../base/quantity.ts";

/** The sizes that make sense in a place, both signs alike: 0 ≤ from ≤ to. The same twice where one size is expected. */
export interface ExpectedRange {
  readonly from: Mm;
  readonly to: Mm;
}

/**
 * Doubt about a number typed without a unit: it does not fit what is expected
 * there, and would fit had it been meant in the unit that bare numbers do not
 * have here. To fit is to lie in the range widened by a factor 10^0.02 (5 %) at both
 * ends. The two readings of a number differ by log10(25.4) = 1.405, so that a
 * range narrower than that is needed to tell them apart; within a wider one
 * nothing is said.
 *
 * @param value the number as it was understood, mm
 * @param typedUnit of the number; one that was typed is believed
 * @param bareUnit unit that numbers without one have here
 * @returns undefined where there is nothing to doubt
 * @throws RangeError if the range is negative, infinite or upside down
 */
export function checkUnitPlausible(
  value: Mm,
  typedUnit: "mm" | "inch" | undefined,
  bareUnit: "mm" | "inch",
  expectedRange: ExpectedRange,
): Problem | undefined {
  const { from, to } = expectedRange;
  if (!(from >= 0 && to >= from && to < Number.POSITIVE_INFINITY))
    throw new RangeError(`expectedRange: expected 0 <= from <= to, got ${from} to ${to}`);
  if (typedUnit !== undefined || value === 0 || fits(value, expectedRange)) return undefined;
  const otherwise = bareUnit === "mm" ? value * millimetresPerInch : value / millimetresPerInch;
  return fits(otherwise, expectedRange) ? doubt(value, bareUnit === "mm" ? "inches" : "millimetres", otherwise) : undefined;
}

const widening = 10 ** 0.02;

function fits(value: number, { from, to }: ExpectedRange): boolean {
  const size = Math.abs(value);
  return size >= from / widening && size <= to * widening;
}

function doubt(value: number, other: "inches" | "millimetres", otherwise: number): Problem {
  return {
    at: "",
    what: `the number stands for ${rounded(value)} mm, which does not fit here; meant in ${other} it would be ${rounded(otherwise)} mm, which does`,
    remedy: "write the unit behind the number",
  };
}

function rounded(value: number): number {
  return Number(value.toPrecision(6));
}
