import { formatFixed } from "../uncertainty/roundForReport.ts";
import { coverageProbability } from "./expandedUncertainty.ts";
import { chanceCell } from "./internals/chanceText.ts";
import { type Figures, figuresIn } from "./internals/figures.ts";
import { textTable } from "./internals/textTable.ts";
import { wrapText } from "./internals/wrapText.ts";
import type { StudyHead } from "./plainStudy.ts";
import type { StudyResult } from "./studyResults.ts";

/** A study as a sheet of plain text. */
export function studyText(head: StudyHead, results: readonly StudyResult[], unit: "mm" | "inch"): string {
  const figures = figuresIn(unit);
  const view = head.view === "thisPart" ? "this part" : "the batch";
  const coverage = formatFixed(100 * coverageProbability, 2);
  const how =
    head.trials > 0
      ? `${head.trials} trials of the whole model, seed ${head.seed}`
      : `exact distributions of the linearised results, corrected for the bend of the model, seed ${head.seed}`;
  const lines = [
    ...wrapText(head.title === "" ? "Setup without a title" : head.title),
    ...wrapText(`"${head.strategy}", ${view}: ${how}. Lengths in ${figures.unit}, angles in degrees; intervals hold ${coverage} %.`),
    "",
    ...textTable(
      columns,
      results.map((result) => row(result, figures)),
    ),
    "",
    ...[...results.map((result) => sentenceOf(result, figures)), bendSentence(results)]
      .filter((sentence) => sentence !== "")
      .flatMap((sentence) => wrapText(sentence, "  - ")),
  ];
  return `${lines.join("\n")}\n`;
}

/** An angle is told in degrees. */
const degreesPerRadian = 180 / Math.PI;

const columns = [
  { title: "result", align: "left" },
  { title: "mean", align: "right" },
  { title: "sd", align: "right" },
  { title: "symmetric interval", align: "right" },
  { title: "shortest interval", align: "right" },
  { title: "within", align: "right" },
] as const;

function row({ name, unit, distribution, symmetric, shortest, within }: StudyResult, figures: Figures): string[] {
  const { value, uncertainty } = writers(unit, figures);
  const span = ([lower, upper]: readonly [number, number]) => `${value(lower)} to ${value(upper)}`;
  return [
    name,
    value(distribution.mean),
    uncertainty(distribution.standardDeviation),
    span(symmetric),
    span(shortest),
    within === undefined ? "-" : chanceCell(within.chance),
  ];
}

/** Whether first order is good enough for the result, in words. */
function sentenceOf({ name, unit, check, nonlinearity, trials }: StudyResult, figures: Figures): string {
  const { uncertainty } = writers(unit, figures);
  const told: string[] = [];
  if (check !== undefined) {
    const [lower, upper] = check.differences.map(uncertainty);
    const beside = `its interval differs from that of the whole model by ${lower} below and ${upper} above, and ${uncertainty(check.tolerance)} is allowed`;
    if (check.verdict === "holds") told.push(`first order holds: ${beside}.`);
    else if (check.verdict === "does not hold") told.push(`first order does not hold: ${beside}.`);
    else told.push(`whether first order holds is not known: ${beside}, but the ends are only known to ${uncertainty(check.doubt)}.`);
  }
  if (!(nonlinearity.size < seenBend))
    told.push(`The bend of the model moves the ends of its interval by ${formatFixed(nonlinearity.size, 3)} standard deviations.`);
  if (trials !== undefined && trials.failed > 0)
    told.push(`In ${trials.failed} of ${trials.failed + trials.count} trials the model had no value; they are not in these numbers.`);
  return told.length === 0 ? "" : `${name}: ${told.join(" ")}`;
}

function bendSentence(results: readonly StudyResult[]): string {
  const largest = Math.max(0, ...results.map(({ nonlinearity }) => nonlinearity.size));
  return largest < seenBend
    ? `The bend of the model moves no end of an interval by more than ${seenBend} standard deviations.`
    : `Where the bend of the model moves an end of an interval by more than ${seenBend} standard deviations, it is told.`;
}

/** In standard deviations: less than the digits of an uncertainty can show. */
const seenBend = 0.005;

function writers(unit: "mm" | "rad", figures: Figures): Writer {
  return unit === "mm"
    ? { value: (x) => figures.length(x), uncertainty: (x) => figures.uncertainty(x) }
    : {
        value: (x) => formatFixed(x * degreesPerRadian, 5),
        uncertainty: (x) => formatFixed(x * degreesPerRadian, 6),
      };
}

interface Writer {
  readonly value: (x: number) => string;
  readonly uncertainty: (x: number) => string;
}
