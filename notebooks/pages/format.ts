import type { Outcome } from "../../lib/base/outcome.ts";
import { success } from "../../lib/base/outcome.ts";
import { parseLength } from "../../lib/formula/parseQuantity.ts";
import { parseTolerance } from "../../lib/part/parseTolerance.ts";
import type { Limits } from "../../lib/part/part.ts";
import type { Budget } from "../../lib/uncertainty/budget.ts";
import { type UnitWriter, writerOf } from "../figures/displayUnit.ts";
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

export function understandTolerance(text: string, _row: unknown, { unit }: CellContext): Outcome<string> {
  const parsed = parseTolerance(text, unit);
  return parsed.ok ? success(limitsInWords(parsed.value, writerOf(unit))) : parsed;
}

function limitsInWords({ lower, upper }: Limits, writer: UnitWriter): string {
  return lower === -upper
    ? `±${writer.stated(upper)}${writer.suffix}`
    : `${writer.statedSigned(lower)} to ${writer.statedSigned(upper)}${writer.suffix}`;
}
