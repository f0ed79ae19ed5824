import type { OffsetComparison, OffsetDifference } from "../offsets/compareOffsets.ts";
import { formatFixed } from "../uncertainty/roundForReport.ts";
import type { Figures } from "./internals/figures.ts";
import { signed } from "./internals/signed.ts";

/** One difference between the table and a text that was read back, as a sentence. */
export function offsetDifferenceText(
  { register, axis, table, read, difference, looksLike }: OffsetDifference,
  { unit }: Pick<Figures, "unit">,
): string {
  const place = `${register} ${axis}`;
  if (read === undefined) return `${place}: the table has ${table}, and the text says nothing of it.`;
  if (table === undefined || difference === undefined)
    return `${place}: the text has ${read}, and the table says nothing of it${seems(looksLike)}.`;
  const apart = unit === "in" ? difference / 25.4 : difference;
  return `${place}: the table has ${table}, the text ${read}; ${signed(formatFixed(apart, unit === "in" ? 5 : 4))} ${unit}${seems(looksLike)}.`;
}

function seems(looksLike: string): string {
  return looksLike === "" ? "" : `: ${looksLike}`;
}

/** How many values agree, and to how many digits, as a sentence. */
export function agreementText({ agreeing, coarse, differences }: OffsetComparison): string {
  const values = (count: number) => `${count} ${count === 1 ? "value" : "values"}`;
  const rounded = coarse === 0 ? "" : `, ${coarse} of them to fewer decimals than the table has, or in the other unit`;
  const apart =
    differences.length === 0 ? "nothing differs" : `${values(differences.length)} ${differences.length === 1 ? "differs" : "differ"}`;
  return `${values(agreeing)} ${agreeing === 1 ? "agrees" : "agree"} with the table${rounded}; ${apart}.`;
}
