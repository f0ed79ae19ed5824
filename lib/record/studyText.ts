import { capitalise } from "../base/capitalise.ts";
import { formatFixed } from "../uncertainty/roundForReport.ts";
import { coverageProbability } from "./expandedUncertainty.ts";
import { failedInWords, firstOrderInWords } from "./firstOrderInWords.ts";
import { chanceCell } from "./internals/chanceText.ts";
import { resultWriter } from "./internals/resultWriter.ts";
import { supposedText } from "./internals/supposedText.ts";
import { textTable } from "./internals/textTable.ts";
import { bullet, wrapText } from "./internals/wrapText.ts";
import type { StudyHead } from "./plainStudy.ts";
import { secondOrderInWords, secondOrderOfAll } from "./secondOrderInWords.ts";
import type { StudyResult } from "./studyResults.ts";

/** A study as a sheet of plain text. */
export function studyText(head: StudyHead, results: readonly StudyResult[], unit: "mm" | "inch"): string {
  const view = head.view === "thisPart" ? "this part" : "the batch";
  const coverage = formatFixed(100 * coverageProbability, 2);
  const how =
    head.trials > 0
      ? `${head.trials} trials of the whole model, seed ${head.seed}${head.isSteady === false ? ", NOT STEADY YET (see --trials)" : ""}`
      : `exact distributions of the linearised results, corrected for the bend of the model, seed ${head.seed}`;
  const lines = [
    ...(head.supposed.length > 0 ? wrapText(supposedText(head.supposed)) : []),
    ...wrapText(head.title === "" ? "Setup without a title" : head.title),
    ...wrapText(
      `"${head.strategy}", ${view}: ${how}. Lengths in ${unit === "inch" ? "in" : "mm"}, angles in degrees; intervals hold ${coverage} %.`,
    ),
    "",
    ...textTable(
      columns,
      results.map((result) => row(result, unit)),
    ),
    "",
    ...studySentences(results, unit).flatMap((sentence) => wrapText(sentence, bullet)),
  ];
  return `${lines.join("\n")}\n`;
}

/** Whether first order is good enough, result by result and of all. */
export function studySentences(results: readonly StudyResult[], unit: "mm" | "inch"): string[] {
  return [
    ...results.map((result) => sentenceOf(result, unit)),
    bendSentence(results),
    secondOrderOfAll(results.map((result) => result.secondOrder)) ?? "",
  ].filter((sentence) => sentence !== "");
}

const columns = [
  { title: "result", align: "left" },
  { title: "mean", align: "right" },
  { title: "sd", align: "right" },
  { title: "symmetric interval", align: "right" },
  { title: "shortest interval", align: "right" },
  { title: "within", align: "right" },
] as const;

function row(result: StudyResult, unit: "mm" | "inch"): string[] {
  const { name, distribution, symmetric, shortest } = result;
  if (result.isTooCurved) return [name, "-", "-", "-", "-", "-"];
  const writer = resultWriter(result.unit, unit);
  const { uncertainty, decimals } = writer.withUncertainty(0, distribution.standardDeviation);
  const value = (x: number) => writer.fixed(x, decimals);
  const span = ([lower, upper]: readonly [number, number]) => `${value(lower)} to ${value(upper)}`;
  return [name, value(distribution.mean), uncertainty, span(symmetric), span(shortest), withinCell(result)];
}

/** Only what trials and errors support: no failure seen is not certainty. */
function withinCell({ within, trials }: StudyResult): string {
  if (within === undefined) return "-";
  const { chance, doubt } = within;
  if (trials !== undefined && (1 - chance) * trials.count < 0.5) return "all trials";
  const least = Math.max(0, chance - doubt);
  return chanceCell(chance).startsWith(">") && !chanceCell(least).startsWith(">")
    ? `at least ${formatFixed(Math.floor(10_000 * least) / 100, 2)} %`
    : chanceCell(chance);
}

/** Whether first order is good enough for the result, in words; empty where there is nothing to say. */
function sentenceOf(result: StudyResult, unit: "mm" | "inch"): string {
  const { name, nonlinearity } = result;
  const words = firstOrderInWords(result, resultWriter(result.unit, unit));
  const failed = failedInWords(result);
  const bend =
    nonlinearity.size < seenBend
      ? ""
      : ` The bend of the model moves the ends of its interval by ${Number.isFinite(nonlinearity.size) ? formatFixed(nonlinearity.size, 3) : "no known number of"} standard deviations.`;
  const terms = secondOrderInWords(result.secondOrder, resultWriter(result.unit, unit));
  if (words === undefined && failed === "" && bend === "" && terms === undefined) return "";
  return `${name}: ${words ?? "a diameter has no first-order interval"}${failed}.${bend}${terms === undefined ? "" : ` ${capitalise(terms)}.`}`;
}

function bendSentence(results: readonly StudyResult[]): string {
  const largest = Math.max(0, ...results.map(({ nonlinearity }) => nonlinearity.size));
  return largest < seenBend
    ? `The bend of the model moves no end of an interval by more than ${seenBend} standard deviations.`
    : `Where the bend of the model moves an end of an interval by more than ${seenBend} standard deviations, it is told.`;
}

/** In standard deviations: less than the digits of an uncertainty can show. */
const seenBend = 0.005;
