import { formatFixed } from "../uncertainty/roundForReport.ts";
import { coverageProbability } from "./expandedUncertainty.ts";
import { failedInWords, firstOrderInWords, type ResultWriter } from "./firstOrderInWords.ts";
import { secondOrderInWords } from "./secondOrderInWords.ts";
import type { BeyondFirstOrder } from "./studyResults.ts";

/** Where first order does not tell all of a result, and what does; undefined where it does. */
export function bendInWords(result: BeyondFirstOrder, writer: ResultWriter): string | undefined {
  const { isTooCurved, check, trials } = result;
  const holds = !isTooCurved && (check === undefined || check.verdict === "holds");
  const words = [
    holds ? undefined : firstOrderInWords(result, writer),
    trials === undefined || isTooCurved || !isWellKnown(result) ? undefined : intervalByTrials(result, trials.count, writer),
    secondOrderInWords(result.secondOrder, writer),
  ].filter((part) => part !== undefined);
  return words.length === 0 ? undefined : words.join("; ");
}

function intervalByTrials(result: BeyondFirstOrder, count: number, writer: ResultWriter): string {
  const [lower, upper] = result.symmetric;
  const { decimals } = writer.withUncertainty(0, (upper - lower) / 4);
  const interval = `${writer.fixed(lower, decimals)} to ${writer.fixed(upper, decimals)}${writer.suffix}`;
  return `by ${count} trials ${interval} holds ${formatFixed(100 * coverageProbability, 2)} %${failedInWords(result)}`;
}

/** Ends that lie where hardly any trial has been, are guesses. */
function isWellKnown({ check, symmetric: [lower, upper] }: BeyondFirstOrder): boolean {
  return check !== undefined && check.doubt < wellKnown * (upper - lower);
}

/** Doubt of the ends, in lengths of the interval. */
const wellKnown = 0.1;
