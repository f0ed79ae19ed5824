import { describeProblem } from "../base/outcome.ts";
import type { OwnEvaluation, SetupEvaluation, StrategyEvaluation } from "../decision/setupEvaluation.ts";
import type { RelatedPair } from "../uncertainty/relateSources.ts";
import { formatFixed } from "../uncertainty/roundForReport.ts";
import { cautions } from "./cautions.ts";
import { correlationText } from "./correlationText.ts";
import { coverageProbability } from "./expandedUncertainty.ts";
import { type Figures, figuresIn } from "./internals/figures.ts";
import { relatedPairs } from "./internals/relatedPairs.ts";
import { summariseChecks, summariseSlips } from "./internals/summariseChecks.ts";
import { summariseFixture } from "./internals/summariseFixture.ts";
import { summariseCheckReadings, summariseOffset } from "./internals/summariseOffset.ts";
import { summariseOwn } from "./internals/summariseOwn.ts";
import { summarisePart } from "./internals/summarisePart.ts";
import { summariseRanking } from "./internals/summariseRanking.ts";
import { summariseStrategy } from "./internals/summariseStrategy.ts";
import { supposedText } from "./internals/supposedText.ts";
import { textTable } from "./internals/textTable.ts";
import { wrapText } from "./internals/wrapText.ts";
import { judgementSentences } from "./judgementSentences.ts";
import { obstacles } from "./obstacles.ts";
import { strategyInUse } from "./strategyInUse.ts";

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
      judgementSentences(evaluation, { unit }).flatMap(({ text }) => wrapText(text, bullet)),
    ),
    ...section("Strategies", summariseRanking(evaluation, figures)),
    ...detailed.flatMap((each) => section(`Zero by "${each.id}"`, summariseStrategy(each, evaluation, figures))),
    ...section("Fixture, in the batch", summariseFixture(evaluation, figures)),
    ...section("This part", summarisePart(evaluation, figures)),
    ...section("Cells of your own", summariseOwn(evaluation, unit)),
    ...section("Doubts that err together", summariseRelated(relatedPairs(evaluation))),
    ...section(
      "Cautions, before anything is typed",
      cautions(evaluation).flatMap(({ text }) => wrapText(text, bullet)),
    ),
    ...section("Offset to type", summariseOffset(evaluation, typed, strategy)),
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

const bullet = "  - ";

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
  const first = evaluation.ranking[0];
  return [...solved(inUse), ...(first === inUse ? [] : solved(first))];
}
