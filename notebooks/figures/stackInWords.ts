import { unlimitedAt } from "../../lib/tolerance/reaches.ts";
import { type Range, type Stack, toleranceWidth } from "../../lib/tolerance/stack.ts";
import type { UnitWriter } from "./displayUnit.ts";
import { chanceInDigits, chanceInWords, formatMet, formatShare, smallestTold } from "./formatChance.ts";
import { surely } from "./outsideInWords.ts";

/** What a stack says, as sentences: tolerance and shares, chance outside, best estimate, how sources without an end were counted. */
export function stackInWords(stack: Stack, writer: UnitWriter): string[] {
  const { limits, isRound, deviation, shares, rows } = stack;
  const decimals = decimalsOfTolerance(limits, writer);
  const where = isRound
    ? `uses ⌀ ${writer.fixed(deviation, decimals)}${writer.suffix}`
    : `${writer.signed(deviation, decimals)}${writer.suffix}`;
  return [
    `${toleranceInWords(stack, writer)} Root sum square uses ${formatShare(shares.rootSumSquare)} of the tolerance, worst case ${formatShare(shares.worstCase)}.`,
    `Chance outside: ${chanceOutside(stack)}.`,
    ...bonusInWords(stack, writer),
    `▾ Best estimate ${where}, ${formatShare(shares.deviation)} of the tolerance.`,
    ...(rows.some(({ unlimited }) => unlimited)
      ? [`In the worst case, sources without an end count with ${unlimitedAt} standard uncertainties.`]
      : []),
  ];
}

/** Bars and curve of a zone at maximum material are those without its bonus. */
function bonusInWords({ bonus }: Stack, { stated, suffix }: UnitWriter): string[] {
  if (bonus === undefined) return [];
  const { range, virtualCondition, chance } = bonus;
  return [
    `At maximum material, all of this without bonus. With that of its own size, up to ${stated(range.upper)}${suffix}, met ${formatMet(chance)}; the wall must not cross ⌀ ${stated(virtualCondition)}${suffix}. A shift by the size of a datum is not counted.`,
  ];
}

function toleranceInWords({ kind, isRound, limits: { lower, upper } }: Stack, { stated, statedSigned, suffix }: UnitWriter): string {
  if (isRound) return `Zone of diameter ${stated(upper)}${suffix}.`;
  if (kind === "symmetry") return `Zone of width ${stated(upper - lower)}${suffix} about the other middle.`;
  if (kind === "parallelism" || kind === "perpendicularity") return `Zone of width ${stated(upper)}${suffix}.`;
  if (upper === Number.POSITIVE_INFINITY) return `Lower limit ${statedSigned(lower)}${suffix} of the drawing's own wall, no upper one.`;
  return `Limits ${statedSigned(lower)} and ${statedSigned(upper)}${suffix}.`;
}

/** Decimals that show a hundredth of a tolerance. */
export function decimalsOfTolerance(limits: Range, { factor }: UnitWriter): number {
  return Math.min(12, Math.max(0, 2 - Math.floor(Math.log10(toleranceWidth(limits) * factor))));
}

/** "None" is said only where the distribution ends within the limits; elsewhere a chance that is too small to be told is told as that. */
function chanceOutside({ chance, chanceError, distribution, limits }: Stack): string {
  const ended = distribution.quantile(0) >= limits.lower && distribution.quantile(1) <= limits.upper;
  if (ended) return "none, the distribution ends within the limits";
  if (1 - chance > surely * chanceError) return outsideInNumbers(1 - chance);
  // What is met without fail to the digits of every other chance is seen by its whole distribution alone, and told as far as that is sure.
  const outside = Math.max(1 - distribution.chanceWithin(limits.lower, limits.upper), Number.MIN_VALUE);
  const most = outside + distribution.error;
  return outside > surely * distribution.error || most < smallestTold ? outsideInNumbers(outside) : `less than ${outsideInNumbers(most)}`;
}

function outsideInNumbers(outside: number): string {
  const digits = outside > 0.1 || outside < smallestTold ? "" : ` (${chanceInDigits(outside)})`;
  return `${chanceInWords(outside)}${digits}`;
}
