import { unlimitedAt } from "../../lib/tolerance/reaches.ts";
import type { Range, Stack } from "../../lib/tolerance/stack.ts";
import type { UnitWriter } from "./displayUnit.ts";
import { chanceInDigits, chanceInWords, formatShare } from "./formatChance.ts";

/** What a stack says, as sentences: tolerance and shares, chance outside, best estimate, how sources without an end were counted. */
export function stackInWords(stack: Stack, writer: UnitWriter): string[] {
  const { limits, kind, deviation, shares, rows } = stack;
  const decimals = decimalsOfTolerance(limits, writer);
  const tolerance =
    kind === "position"
      ? `Zone of diameter ${writer.stated(limits.upper)}${writer.suffix}.`
      : `Limits ${writer.statedSigned(limits.lower)} and ${writer.statedSigned(limits.upper)}${writer.suffix}.`;
  const where =
    kind === "position"
      ? `uses ⌀ ${writer.fixed(deviation, decimals)}${writer.suffix}`
      : `${writer.signed(deviation, decimals)}${writer.suffix}`;
  return [
    `${tolerance} Root sum square uses ${formatShare(shares.rootSumSquare)} of the tolerance, worst case ${formatShare(shares.worstCase)}.`,
    `Chance outside: ${chanceOutside(stack)}.`,
    `▾ Best estimate ${where}, ${formatShare(shares.deviation)} of the tolerance.`,
    ...(rows.some(({ unlimited }) => unlimited)
      ? [`In the worst case, sources without an end count with ${unlimitedAt} standard uncertainties.`]
      : []),
  ];
}

/** Decimals that show a hundredth of a tolerance. */
export function decimalsOfTolerance({ lower, upper }: Range, { factor }: UnitWriter): number {
  return Math.min(12, Math.max(0, 2 - Math.floor(Math.log10((upper - lower) * factor))));
}

/** "None" is said only where the distribution ends within the limits; elsewhere a chance that is too small to be told is told as that. */
function chanceOutside({ chance, distribution, limits }: Stack): string {
  const ended = distribution.quantile(0) >= limits.lower && distribution.quantile(1) <= limits.upper;
  if (ended) return "none, the distribution ends within the limits";
  const outside = Math.max(1 - chance, Number.MIN_VALUE);
  const digits = outside > 0.1 || outside < 1e-9 ? "" : ` (${chanceInDigits(outside)})`;
  return `${chanceInWords(outside)}${digits}`;
}
