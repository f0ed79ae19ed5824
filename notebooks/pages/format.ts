import type { Outcome } from "../../lib/base/outcome.ts";
import { success } from "../../lib/base/outcome.ts";
import { isShare } from "../../lib/document/rowReader.ts";
import { parseAngle, parseLength, parseQuantity } from "../../lib/formula/parseQuantity.ts";
import { plainNumber } from "../../lib/formula/units.ts";
import { parseToleranceClass } from "../../lib/part/iso286/toleranceClass.ts";
import { numberPair } from "../../lib/part/limitsOfSize.ts";
import { parseAngleTolerance } from "../../lib/part/parseAngleTolerance.ts";
import { parseTolerance } from "../../lib/part/parseTolerance.ts";
import type { Limits } from "../../lib/part/part.ts";
import type { Budget } from "../../lib/uncertainty/budget.ts";
import { writerOf } from "../figures/displayUnit.ts";
import type { CellContext, ShownResult } from "../inputs/column.ts";

/** Decimals of a length that carries no uncertainty to round it by: a tenth of what machines display. */
export const plainDecimals = { mm: 4, inch: 5 } as const;

/** A value rounded to its standard uncertainty, and that beneath it. */
export function shownWithUncertainty(
  { value, standardUncertainty }: Budget,
  unit: "mm" | "inch" | "degree",
  largest?: number,
): ShownResult {
  const written = writerOf(unit).withUncertainty(value, standardUncertainty);
  const whisker = largest === undefined || !(largest > 0) ? {} : { whisker: standardUncertainty / largest };
  return { text: written.value, below: `u ${written.uncertainty}`, ...whisker };
}

export function shownLength(value: number | undefined, unit: "mm" | "inch"): ShownResult | undefined {
  return value === undefined ? undefined : { text: writerOf(unit).fixed(value, plainDecimals[unit]) };
}

/** How the text of a length was understood. */
export function understandLength(text: string, _row: unknown, { unit }: CellContext): Outcome<string> {
  const parsed = parseLength(text, { unit });
  return parsed.ok ? success(parsed.value.understoodAs) : parsed;
}

/** How the text of the doubt of a length was understood: a length, or a share of the value. */
export function understandDoubt(text: string, row: unknown, context: CellContext): Outcome<string> {
  if (!isShare(text)) return understandLength(text, row, context);
  const share = parseQuantity(text.trimEnd().slice(0, -1), plainNumber.dimension, plainNumber);
  return share.ok ? success(`${share.value.value} % of the value`) : share;
}

/** How the text of a tolerance was understood; of a class, whose limits go by the size, as long as that can be read without the ledger. */
export function understandTolerance(text: string, nominal: string, { unit }: CellContext): Outcome<string> {
  const size = nominal.trim() === "" ? undefined : parseLength(nominal, { unit });
  const isClass = parseToleranceClass(text).ok;
  if (isClass && !size?.ok) return success("a class of ISO 286, whose limits go by the nominal size");
  if (!size?.ok && numberPair(text)) return success("two numbers without signs, which are read by the nominal");
  const parsed = parseTolerance(text, unit, undefined, size?.ok ? { nominal: size.value.value, kind: undefined } : undefined);
  return parsed.ok ? success(limitsInWords(parsed.value, unit)) : parsed;
}

/** How the text of a small angle was understood: bare numbers are degrees. */
export function understandAngle(text: string): Outcome<string> {
  const parsed = parseAngle(text, { unit: "deg" });
  return parsed.ok ? success(parsed.value.understoodAs) : parsed;
}

/** How the tolerance of an angle was understood, in degrees. */
export function understandAngleTolerance(text: string): Outcome<string> {
  const parsed = parseAngleTolerance(text);
  if (!parsed.ok) return parsed;
  const { stated, statedSigned, suffix } = writerOf("degree");
  const { lower, upper } = parsed.value;
  return success(lower === -upper ? `±${stated(upper)}${suffix}` : `${statedSigned(upper)} / ${statedSigned(lower)}${suffix}`);
}

/** Limits as drawings print them, with the standard that gives them: `±0.05 mm`, `+0.021 / 0 mm by ISO 286 H7`. */
export function limitsInWords(limits: Limits, unit: "mm" | "inch"): string {
  const { standard } = limits;
  return `${shownLimits(limits, unit)}${writerOf(unit).suffix}${standard === undefined ? "" : ` by ${standard}`}`;
}

/** The same as bare figures. */
export function shownLimits({ lower, upper }: Limits, unit: "mm" | "inch"): string {
  const { stated, statedSigned } = writerOf(unit);
  if (lower === upper && upper === 0) return "exact";
  return lower === -upper ? `±${stated(upper)}` : `${statedSigned(upper)} / ${statedSigned(lower)}`;
}

/** A date and time of ISO 8601 without its seconds. */
export function toTheMinute(time: string): string {
  return time.replace(/:\d\d(?:\.\d+)?Z$/u, "Z");
}
