import { describeProblem, type Outcome } from "../base/outcome.ts";
import { judgeRun } from "../decision/judgeRun.ts";
import { judgeWarmUp } from "../decision/judgeWarmUp.ts";
import type { OwnEvaluation, SetupEvaluation, StrategyEvaluation } from "../decision/setupEvaluation.ts";
import type { RelatedPair } from "../uncertainty/relateSources.ts";
import { formatFixed } from "../uncertainty/roundForReport.ts";
import { calibrationInWords, calibrationsOf } from "./calibrationInWords.ts";
import { cautions } from "./cautions.ts";
import { correlationText } from "./correlationText.ts";
import { coverageProbability } from "./expandedUncertainty.ts";
import { type Figures, figuresIn } from "./internals/figures.ts";
import { relatedPairs } from "./internals/relatedPairs.ts";
import { summariseChecks, summariseSlips } from "./internals/summariseChecks.ts";
import { summariseFixture } from "./internals/summariseFixture.ts";
import { summariseCheckReadings, summariseOffset } from "./internals/summariseOffset.ts";
import { summariseOffsets } from "./internals/summariseOffsets.ts";
import { summariseOwn } from "./internals/summariseOwn.ts";
import { summarisePart } from "./internals/summarisePart.ts";
import { summariseRanking } from "./internals/summariseRanking.ts";
import { summariseStrategy } from "./internals/summariseStrategy.ts";
import { supposedText } from "./internals/supposedText.ts";
import { textTable } from "./internals/textTable.ts";
import { bullet, wrapText } from "./internals/wrapText.ts";
import { judgementSentences } from "./judgementSentences.ts";
import { obstacles } from "./obstacles.ts";
import { runSentences } from "./runSentences.ts";
import { bendsOfTold } from "./strategyBend.ts";
import { strategyInUse } from "./strategyInUse.ts";
import { warmUpSentences } from "./warmUpSentences.ts";

export interface SummaryOptions {
  /** Of all lengths shown, except what is typed into the controller; the document's own unless given. */
  readonly unit?: "mm" | "inch";
  /** The one strategy to be told in detail; otherwise the one in use, and the first of the ranking where that is another. */
  readonly strategy?: string;
}

/** An evaluation as a sheet of plain text, at most 100 columns wide where the names allow: judgement first, then figures, cautions, and what is typed. */
export function summaryText(
  evaluation: SetupEvaluation & Partial<OwnEvaluation>,
  { unit = evaluation.setup.unit, strategy }: SummaryOptions = {},
): string {
  const figures = figuresIn(unit);
  const detailed = detailedStrategies(evaluation, strategy);
  const typed = strategy === undefined ? strategyInUse(evaluation)?.evaluation : detailed[0];
  const inUse = strategyInUse(evaluation)?.evaluation;
  const problems = obstacles(evaluation);
  const lines = [
    ...wrapText(evaluation.setup.title === "" ? "Setup without a title" : evaluation.setup.title),
    ...wrapText(legend(figures)),
    ...(evaluation.setup.supposed.length > 0 ? wrapText(supposedText(evaluation.setup.supposed)) : []),
    ...section(
      "Not read, or not known",
      problems.flatMap((problem) => wrapText(describeProblem(problem), bullet)),
    ),
    ...section(
      "Judgement",
      judgementSentences(evaluation, { unit, bends: bendsOfTold(evaluation, "thisPart") }).flatMap(({ text }) => wrapText(text, bullet)),
    ),
    ...section("Strategies", summariseRanking(evaluation, figures)),
    ...detailed.flatMap((each) => section(`Zero by "${each.id}"`, summariseStrategy(each, evaluation, figures))),
    ...section("Fixture, in the batch", summariseFixture(evaluation, figures)),
    ...section("This part", summarisePart(evaluation, figures)),
    ...section(
      "Made parts",
      told(judgeRun(evaluation.setup, inUse), (run) => runSentences(run, { unit })),
    ),
    ...section(
      "Warming up",
      told(judgeWarmUp(evaluation.setup, inUse), (warmUp) => warmUpSentences(warmUp, { unit })),
    ),
    ...section("Cells of your own", summariseOwn(evaluation, unit)),
    ...section(
      "Contact tools and their calibration",
      calibrationsOf(evaluation).flatMap(({ id, calibration }) => wrapText(`"${id}": ${calibrationInWords(calibration)}`, bullet)),
    ),
    ...section("Doubts that err together", summariseRelated(relatedPairs(evaluation))),
    ...section(
      "Cautions, before anything is typed",
      cautions(evaluation).flatMap(({ text }) => wrapText(text, bullet)),
    ),
    ...section("Offset to type", summariseOffset(evaluation, typed, strategy)),
    ...section("Offsets in force", summariseOffsets(evaluation, figures)),
    ...section("Check readings", summariseCheckReadings(evaluation, typed, figures)),
    ...section("Checks", summariseChecks(evaluation, figures)),
    ...section("What looks like a slip", summariseSlips(evaluation, unit)),
  ];
  return `${lines.join("\n")}\n`;
}

function summariseRelated(pairs: readonly RelatedPair[]): string[] {
  if (pairs.length === 0) return [];
  const columns = [
    { title: "this doubt", align: "left" },
    { title: "and this one", align: "left" },
    { title: "coefficient", align: "right" },
  ] as const;
  return textTable(
    columns,
    pairs.map(({ one, other, coefficient }) => [one, other, correlationText(coefficient)]),
  );
}

/** Sentences of what is known, or why it is not; nothing of what was not asked for. */
function told<T>(outcome: Outcome<T> | undefined, sentences: (value: T) => readonly string[]): string[] {
  if (outcome === undefined) return [];
  const lines = outcome.ok ? sentences(outcome.value) : outcome.problems.map(describeProblem);
  return lines.flatMap((line) => wrapText(line, bullet));
}

function legend({ unit }: Figures): string {
  const coverage = formatFixed(100 * coverageProbability, 2);
  return `Lengths in ${unit}. u is a standard uncertainty, U = k u an expanded one with ${coverage} % coverage. How much of a tolerance is used is told as expected, at the root sum square (RSS), and in the worst case.`;
}

function section(title: string, lines: readonly string[]): string[] {
  if (lines.length === 0) return [];
  const [heading] = wrapText(title);
  return ["", heading as string, "-".repeat(Array.from(heading as string).length), ...lines];
}

function detailedStrategies(evaluation: SetupEvaluation, wanted: string | undefined): StrategyEvaluation[] {
  const solved = (id: string | undefined) =>
    evaluation.strategies.flatMap((each) => (each.id === id && each.evaluation.ok ? [each.evaluation.value] : []));
  if (wanted !== undefined) return solved(wanted);
  const inUse = strategyInUse(evaluation)?.evaluation.id;
  const first = evaluation.ranking.order[0];
  return [...solved(inUse), ...(first === inUse ? [] : solved(first))];
}
