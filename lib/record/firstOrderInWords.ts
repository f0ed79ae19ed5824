import { formatFixed } from "../uncertainty/roundForReport.ts";
import type { BeyondFirstOrder } from "./studyResults.ts";

/** Writes values of one unit, to the decimals of an uncertainty or to stated ones. */
export interface ResultWriter {
  /** Follows a number: ` mm`, `°`. */
  readonly suffix: string;
  readonly factor: number;
  withUncertainty(value: number, uncertainty: number): { readonly uncertainty: string; readonly decimals: number };
  fixed(value: number, decimals: number): string;
}

/**
 * Whether the first-order interval of a result stands beside that of the whole model, in a few words, or why that is not known; undefined for a
 * diameter used, which has no first-order interval.
 */
export function firstOrderInWords(
  { check, isTooCurved }: Pick<BeyondFirstOrder, "check" | "isTooCurved">,
  writer: ResultWriter,
): string | undefined {
  if (isTooCurved) return "not known: the model bends too much for a correction, only trials with a value tell";
  if (check === undefined) return undefined;
  const { differences, tolerance, doubt, verdict, firstOrder, wholeModel } = check;
  const allowed = writer.withUncertainty(0, tolerance);
  const limit = `${allowed.uncertainty}${writer.suffix}`;
  // Finer than what is allowed is told to nobody.
  const length = (value: number) => {
    const text = writer.fixed(value, allowed.decimals);
    return /[1-9]/.test(text)
      ? `${text}${writer.suffix}`
      : `less than ${writer.fixed(10 ** -allowed.decimals / writer.factor, allowed.decimals)}${writer.suffix}`;
  };
  const largest = Math.max(...differences);
  const isUpper = differences[1] >= differences[0];
  const isFarther = isUpper ? wholeModel[1] > firstOrder[1] : wholeModel[0] < firstOrder[0];
  switch (verdict) {
    case "holds":
      return `first order holds: the ends differ by ${length(largest)}, ${limit} is allowed`;
    case "does not hold":
      return `first order does not hold here: the ${isUpper ? "upper" : "lower"} end is ${length(largest)} farther ${isFarther ? "out" : "in"}, ${limit} is allowed`;
    case "not known":
      return Number.isFinite(doubt)
        ? `not known: the ends differ by ${length(largest)}, ${limit} is allowed, and they are only known to ${length(doubt)}`
        : "not known: the ends of the interval are not known well enough";
  }
}

/** The share of trials, or of points of the correction, without a value, to be said behind other words; empty for none. */
export function failedInWords({ failedShare, trials }: Pick<BeyondFirstOrder, "failedShare" | "trials">): string {
  if (failedShare === 0) return "";
  const share = failedShare < smallestShare ? "below 0.001" : formatFixed(100 * failedShare, 3);
  return `; in ${share} % of the ${trials === undefined ? "points of the correction" : "trials"} the model had no value, and they are not in these numbers`;
}

const smallestShare = 1e-5;
