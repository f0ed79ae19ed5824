import { failure, type Outcome, success } from "../base/outcome.ts";
import { type Mm, mm } from "../base/quantity.ts";
import { type ParsedQuantity, parseLength } from "../formula/parseQuantity.ts";
import type { Limits } from "./part.ts";
import { isUpTo, sizeText } from "./sizeRange.ts";
import { unitForOneLimit } from "./unitForOneLimit.ts";

/** Two numbers without signs, and how they are joined. */
export interface NumberPair {
  readonly first: string;
  readonly second: string;
  /** `a / b`, `a -b` with the sign at the second, `a - b` or `a-b`, and everything that joins no formula. */
  readonly joint: "quotient" | "signed second" | "difference" | "list";
}

/** What a pair of numbers is the tolerance of: a length, or a place along an axis, whose limits carry signs. */
export interface PairedSize {
  readonly nominal: Mm;
  readonly isPlace: boolean;
}

/**
 * Two numbers as limits of size are written: `20.05/19.95`, `20.05 - 19.95`, `19.95 20.05`, `19.95 to 20.05`. Undefined for all else, and where one of
 * them is 0, which is a deviation.
 */
export function numberPair(text: string): NumberPair | undefined {
  const match = pairShape.exec(text.trim());
  if (match === null) return undefined;
  const [, first = "", before = "", sign = "", after = "", second = ""] = match;
  if ([first, second].some((each) => Number.parseFloat(each.replace(",", ".")) === 0)) return undefined;
  if (sign === "/") return { first, second, joint: "quotient" };
  if (!/^[-−–—]$/u.test(sign)) return { first, second, joint: "list" };
  return { first, second, joint: before !== "" && after === "" ? "signed second" : "difference" };
}

const numberAndUnit = String.raw`(?:\d+(?:[.,]\d+)*|[.,]\d+)(?:\s?(?!to\b)[a-zµμ°]+)?`;
const pairShape = new RegExp(String.raw`^(${numberAndUnit})(\s*)(\/|;|\.{2,}|…|[-−–—]|\bto\b|(?<=\s))(\s*)(${numberAndUnit})$`, "iu");

/**
 * Reads a pair of numbers without signs as limits of size, less the nominal, where they lie about it; refuses it where it can mean nothing, or more than
 * one thing. Undefined where it is a fraction or two deviations and cannot be limits.
 *
 * @param size undefined where the nominal is not known
 */
export function limitsOfSize(
  pair: NumberPair,
  size: PairedSize | undefined,
  { text, unit, expected }: { readonly text: string; readonly unit: "mm" | "inch"; readonly expected: string },
): Outcome<Limits> | undefined {
  const [first, second] = [parseLength(pair.first, { unit }), parseLength(pair.second, { unit })];
  if (!first.ok || !second.ok) return undefined;
  const both = [first.value, second.value] as const;
  const nominal = size && (size.isPlace ? size.nominal : mm(Math.abs(size.nominal)));
  const areLimits = nominal !== undefined && both.every(({ value }) => isPlausibleDeviation(mm(value - nominal), nominal));
  const isOther = hasOtherMeaning(pair, both, nominal);
  const refuse = (what: string, remedy: string) => failure({ at: "", what, expected, got: text, remedy });
  if (!areLimits && isOther) return undefined;
  if (!areLimits)
    return refuse(
      nominal === undefined
        ? "these two numbers have no signs, and the nominal that they could be limits about is not known here"
        : `these two numbers have no signs, and as limits of size they do not lie about the nominal, ${sizeText(nominal)}`,
      "write the deviations with their signs, such as +0.05 -0.05; ± before a formula such as ±(0.2/2)",
    );
  if (isOther)
    return refuse(
      "these two numbers can be limits of size, or deviations or a fraction",
      "write the deviations with their signs, such as +0.05 -0.05",
    );
  const doubt = unitForOneLimit(both, unit === "inch" ? "in" : "mm", { text, expected });
  if (doubt) return doubt;
  const [low, high] = both.map(({ value }) => value - nominal).sort((a, b) => a - b) as [number, number];
  if (low === high) return failure({ at: "", what: "the two limits are the same", expected, got: text });
  // A length that goes against its axis has its deviations turned over.
  return success(
    size?.isPlace || (size?.nominal ?? 0) >= 0 ? { lower: mm(low), upper: mm(high) } : { lower: mm(0 - high), upper: mm(0 - low) },
  );
}

/**
 * Whether a deviation is such as drawings have: at most 1 mm, or a tenth of the nominal (common practice, no source; the widest class of ISO 2768-1 stays
 * within it).
 */
export function isPlausibleDeviation(deviation: Mm, nominal: Mm): boolean {
  return isUpTo(Math.abs(deviation), Math.max(1, Math.abs(nominal) / 10));
}

function hasOtherMeaning(
  { joint }: NumberPair,
  [first, second]: readonly [ParsedQuantity<Mm>, ParsedQuantity<Mm>],
  nominal: Mm | undefined,
): boolean {
  if (joint === "signed second") return [first, second].every(({ value }) => isPlausibleDeviation(value, nominal ?? mm(0)));
  if (joint !== "quotient" || !isWhole(second)) return false;
  if (first.typedUnit !== undefined && second.typedUnit === undefined) return true;
  return isProperFraction(first.text, second.text);
}

/** Whether this is a fraction as inches and degrees are divided: `1/64`, `3/8`. */
export function isProperFraction(first: string, second: string): boolean {
  const [above, below] = [first, second].map((each) => (/[.,]/u.test(each) ? Number.NaN : Number.parseInt(each, 10))) as [number, number];
  return above < below && halvings.includes(below);
}

const halvings = [2, 4, 8, 16, 32, 64, 128];

function isWhole({ decimals }: ParsedQuantity<Mm>): boolean {
  return decimals === 0;
}
