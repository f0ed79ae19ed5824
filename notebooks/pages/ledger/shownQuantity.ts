import { describeProblem } from "../../../lib/base/outcome.ts";
import type { CellBlock } from "../../../lib/document/ledgerBlocks.ts";
import { type Dimension, describeDimension, sameDimension } from "../../../lib/formula/dimension.ts";
import { fromBaseUnit, parseUnit, resultUnit } from "../../../lib/formula/resultUnit.ts";
import type { Unit } from "../../../lib/formula/units.ts";
import type { Budget } from "../../../lib/uncertainty/budget.ts";
import { type DisplayUnit, writerOf } from "../../figures/displayUnit.ts";

/** How a value of a person's own is written. */
export interface ShownQuantity {
  /** Rounded to its doubt, without its unit. */
  readonly text: string;
  /** ` mm`, `°`, or nothing. */
  readonly suffix: string;
  /** Its standard uncertainty, in the same unit, to two digits; undefined for a value without doubt. */
  readonly uncertainty: string | undefined;
  readonly unit: DisplayUnit;
  /** Why it is not written as a person wished. */
  readonly refusal: string | undefined;
}

type Wish = Pick<CellBlock, "unit" | "decimals">;

const mostDecimals = 15;
/** Digits of a value without doubt: fewer than a double holds, so that the rounding of an inch does not show. */
const exactDigits = 12;
/** From here on, and below its inverse, digits alone are not read well. */
const largest = 1e12;

/** A value with its doubt, in the unit and with the decimals that a person wishes, else in the usual ones. */
export function showQuantity(
  { value, standardUncertainty }: Pick<Budget, "value" | "standardUncertainty">,
  dimension: Dimension,
  wish: Wish,
  shownUnit: "mm" | "inch",
): ShownQuantity {
  const unit = unitFor(dimension, wish.unit, shownUnit);
  const decimals = decimalsOf(wish.decimals);
  const display = displayUnitOf(unit.unit);
  const writer = writerOf(display);
  const [inUnit, doubt] = [value, standardUncertainty].map((each) => Math.abs(fromBaseUnit(each, unit.unit))) as [number, number];
  // Beside a doubt that digits tell, a value that is next to nothing is nothing.
  const told = doubt === 0 ? inUnit : doubt;
  const isPlain = inUnit < largest && doubt < largest && (told === 0 || told > 1 / largest);
  const refusal = [unit.refusal, decimals.refusal].filter((each) => each !== undefined).join(" ");
  const common = { suffix: writer.suffix, unit: display, refusal: refusal === "" ? undefined : refusal };
  if (!isPlain) {
    const inPowers = (each: number) => fromBaseUnit(each, unit.unit).toExponential(5).replaceAll("-", "−");
    return { ...common, text: inPowers(value), uncertainty: standardUncertainty === 0 ? undefined : inPowers(standardUncertainty) };
  }
  const written = writer.withUncertainty(value, standardUncertainty);
  const text =
    decimals.count !== undefined
      ? writer.fixed(value, decimals.count)
      : standardUncertainty === 0
        ? String(Number(fromBaseUnit(value, unit.unit).toPrecision(exactDigits))).replace("-", "−")
        : written.value;
  return { ...common, text, uncertainty: standardUncertainty === 0 ? undefined : written.uncertainty };
}

/** The unit of a value, with its symbol as figures write it. */
export function displayUnitOf({ symbol, numerator, denominator }: Unit): DisplayUnit {
  if (symbol === "mm") return "mm";
  if (symbol === "in") return "inch";
  return symbol === "deg" ? "degree" : { symbol, factor: denominator / numerator };
}

function unitFor(
  dimension: Dimension,
  wished: string,
  shownUnit: "mm" | "inch",
): { readonly unit: Unit; readonly refusal: string | undefined } {
  const usual = resultUnit(dimension, shownUnit);
  if (wished.trim() === "") return { unit: usual, refusal: undefined };
  const parsed = parseUnit(wished);
  if (!parsed.ok) return { unit: usual, refusal: parsed.problems.map(describeProblem).join(" ") };
  if (sameDimension(parsed.value.dimension, dimension)) return { unit: parsed.value, refusal: undefined };
  const refusal = `“${wished.trim()}” is a unit of ${describeDimension(parsed.value.dimension)}, and this is ${describeDimension(dimension)}.`;
  return { unit: usual, refusal };
}

function decimalsOf(wished: string): { readonly count: number | undefined; readonly refusal: string | undefined } {
  const text = wished.trim();
  if (text === "") return { count: undefined, refusal: undefined };
  if (/^\d{1,2}$/.test(text) && Number(text) <= mostDecimals) return { count: Number(text), refusal: undefined };
  return { count: undefined, refusal: `Decimals: expected a whole number from 0 to ${mostDecimals}, got “${text}”.` };
}
