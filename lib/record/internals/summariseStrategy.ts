import { capitalise } from "../../base/capitalise.ts";
import { listText } from "../../base/listText.ts";
import { describeProblem } from "../../base/outcome.ts";
import { axes } from "../../base/vector.ts";
import type { Setup } from "../../datum/setup.ts";
import type { SetupEvaluation, StrategyEvaluation } from "../../decision/setupEvaluation.ts";
import type { Characteristic } from "../../part/part.ts";
import type { Judgement, RowJudgement } from "../../tolerance/judgeStrategy.ts";
import type { Bonus, Stack } from "../../tolerance/stack.ts";
import { type Budget, byFamily } from "../../uncertainty/budget.ts";
import { correlation } from "../../uncertainty/covariance.ts";
import { correlationText, noCorrelation } from "../correlationText.ts";
import { effortInWords, optimalInWords, optimalIsBetter } from "../optimalInWords.ts";
import { secondOrderInWords } from "../secondOrderInWords.ts";
import { verdictSentence } from "../verdictSentence.ts";
import { zeroRegionSentence } from "../zeroRegionSentence.ts";
import { zeroSecondOrder } from "../zeroSecondOrder.ts";
import { chanceCell, chanceText, shareText } from "./chanceText.ts";
import { type Figures, figuresOf, resultFigures } from "./figures.ts";
import { resultWriter } from "./resultWriter.ts";
import { textTable } from "./textTable.ts";
import { shortLength as short, toleranceText } from "./toleranceText.ts";
import { wrapText } from "./wrapText.ts";

/** One strategy in detail: its zero with the largest sources, what its touches leave free or repeat, and every characteristic. */
export function summariseStrategy(strategy: StrategyEvaluation, { setup }: SetupEvaluation, figures: Figures): string[] {
  const { zero, rotation, thisPart, batch } = strategy;
  const rows = zero.flatMap((axis, i) => (axis.ok ? [zeroRow(axes[i] as string, axis.value, figures)] : []));
  const unknown = [...zero, ...(strategy.solution.strategy.rotation === "ignored" ? [] : [rotation])].flatMap((axis) =>
    axis.ok ? [] : axis.problems.map(describeProblem),
  );
  return [
    ...(rows.length > 0 ? textTable(zeroColumns, rows) : []),
    ...(rotation.ok ? wrapText(turnText(rotation.value), "  ") : []),
    ...regionLines(strategy, figures),
    ...correlationLines(strategy),
    ...secondOrderLines(strategy, figures),
    ...zero.flatMap((axis, i) => (axis.ok ? sources(axes[i] as string, axis.value, figures) : [])),
    ...unknown.flatMap((line) => wrapText(`Not known: ${line}`, "  ")),
    ...agreement(strategy, figures),
    ...worthOfTouches(strategy, figures),
    ...judged("for this part", thisPart, setup.part.characteristics, figures),
    ...decided(thisPart, setup.decision, figures),
    ...judged("in the batch", batch, setup.part.characteristics, figures),
  ];
}

const zeroColumns = [
  { title: "zero", align: "left" },
  { title: "machine coordinate", align: "right" },
  { title: "u", align: "right" },
  { title: "U", align: "right" },
  { title: "k", align: "right" },
] as const;

function zeroRow(name: string, budget: Budget, figures: Figures): string[] {
  const { value, standardUncertainty, expandedUncertainty, coverageFactor } = figures.result(budget);
  return [name, value, standardUncertainty, expandedUncertainty, coverageFactor];
}

/** In degrees, with what it makes over a length of 100. */
function turnText(rotation: Budget): string {
  const { value, standardUncertainty, expandedUncertainty, coverageFactor } = resultFigures(rotation, 180 / Math.PI, 5);
  const over = resultFigures(rotation, 100, 4);
  return `Turn about Z ${value} degrees, u ${standardUncertainty}, U ${expandedUncertainty}, k ${coverageFactor}; over a length of 100 that is ${over.value}, u ${over.standardUncertainty}.`;
}

function regionLines(strategy: StrategyEvaluation, { unit }: Figures): string[] {
  const sentence = zeroRegionSentence(strategy, unit === "in" ? "inch" : "mm");
  return sentence === "" ? [] : wrapText(sentence, "  ");
}

/** What else of the zero errs together, so that it must not be taken as independent (JCGM 100:2008, 7.2.5). */
function correlationLines({ zero: [x, y, z], rotation }: StrategyEvaluation): string[] {
  const named = [
    [x, z, "X and Z"],
    [y, z, "Y and Z"],
    [x, rotation, "X and the turn"],
    [y, rotation, "Y and the turn"],
    [z, rotation, "Z and the turn"],
  ] as const;
  const pairs = named.flatMap(([a, b, name]) => {
    const coefficient = a.ok && b.ok ? correlation(a.value, b.value) : 0;
    return Math.abs(coefficient) < noCorrelation ? [] : [`of ${name} ${correlationText(coefficient)}`];
  });
  return pairs.length > 0 ? wrapText(`Correlation ${listText(pairs)}.`, "  ") : [];
}

/** Only where the terms of second order change a u that is shown, or may do so. */
function secondOrderLines(strategy: StrategyEvaluation, { unit }: Figures): string[] {
  return zeroSecondOrder(strategy).flatMap(({ name, terms }) => {
    const words = secondOrderInWords([terms], resultWriter(name === "rotation" ? "rad" : "mm", unit === "in" ? "inch" : "mm"));
    return words === undefined ? [] : wrapText(`${capitalise(name)}: ${words}.`, "  ");
  });
}

/** How many sources of an axis are named. */
const named = 4;

/** With the sign of what one standard uncertainty of each does. */
function sources(name: string, budget: Budget, figures: Figures): string[] {
  const { contributions } = budget;
  if (contributions.length === 0) return wrapText(`${name}: nothing is stated to be in doubt.`, "  ");
  const largest = contributions
    .slice(0, named)
    .map(({ source, amount }) => `${source.label} ${amount < 0 ? "-" : "+"}${figures.uncertainty(Math.abs(amount))}`);
  const more = contributions.length > named ? `; ${contributions.length - named} more` : "";
  const families = byFamily(budget).map(({ family, standardUncertainty }) => `${family} ${figures.uncertainty(standardUncertainty)}`);
  // One family alone says what u has said.
  const together = families.length > 1 ? ` By family: ${families.join(", ")}.` : "";
  return wrapText(`${name} from ${largest.join(", ")}${more}.${together}`, "  ");
}

function agreement({ solution: { frame, contacts } }: StrategyEvaluation, figures: Figures): string[] {
  const free = frame.freeMotions.map(({ words }) => words);
  const left = frame.residuals.map((residual, i) => `${contacts[i]?.touch} ${figures.length(residual)}`);
  return [
    ...(free.length > 0 ? wrapText(`These touches leave free: ${free.join("; ")}.`, "  ") : []),
    ...(frame.redundancy > 0 && frame.rank > 0 && frame.residuals.some((residual) => Math.abs(residual) > rounding)
      ? wrapText(`What the touches do not agree on: ${left.join(", ")}.`, "  ")
      : []),
  ];
}

/** What the touches take, and what they could give at best. */
function worthOfTouches(strategy: StrategyEvaluation, { unit }: Figures): string[] {
  const { optimal } = strategy;
  const effort = strategy.effort.touches > 0 ? wrapText(`It takes ${effortInWords(strategy)}.`, "  ") : [];
  if (optimal === undefined) return effort;
  if (!optimal.ok) return [...effort, ...optimal.problems.flatMap(({ what }) => wrapText(`No best use of the touches: ${what}.`, "  "))];
  if (!optimalIsBetter(strategy))
    return [...effort, ...wrapText("No other weights of the same touches would make zero better known.", "  ")];
  const rows = optimalInWords(strategy, unit === "in" ? "inch" : "mm").map((each) => [
    each.name,
    each.conventional,
    each.conventionalUncertainty,
    each.optimal,
    each.optimalUncertainty,
    each.share,
  ]);
  const words =
    "Weighed by all that is known of them together, the same touches could give more. Told for work at zero, with what the scale is off on the way there; zero above counts touches alike.";
  return [...effort, ...wrapText(words, "  "), ...textTable(optimalColumns, rows)];
}

const optimalColumns = [
  { title: "zero", align: "left" },
  { title: "by this strategy", align: "right" },
  { title: "u", align: "right" },
  { title: "at best", align: "right" },
  { title: "u", align: "right" },
  { title: "share", align: "right" },
] as const;

/** Residuals below this, mm, are rounding of doubles. */
const rounding = 1e-9;

const characteristicColumns = (words: string) =>
  [
    { title: words, align: "left" },
    { title: "tolerance", align: "left" },
    { title: "expected", align: "right" },
    { title: "95 % from, to", align: "left" },
    { title: "used", align: "right" },
    { title: "RSS", align: "right" },
    { title: "worst", align: "right" },
    { title: "chance", align: "right" },
  ] as const;

/** What every characteristic uses of its tolerance, as a table. */
export function judged(
  words: string,
  { stacks, rows: patterns }: Judgement,
  characteristics: readonly Characteristic[],
  figures: Figures,
): string[] {
  const rows = stacks.flatMap((stack) => (stack.ok ? [stackRow(stack.value, figures)] : []));
  const unknown = stacks.flatMap((stack, i) =>
    stack.ok ? [] : stack.problems.map((problem) => `"${characteristics[i]?.id}" ${words} is not known: ${describeProblem(problem)}`),
  );
  return [
    ...(rows.length > 0 ? ["", ...textTable(characteristicColumns(words), rows)] : []),
    ...stacks.flatMap((stack) => (stack.ok && stack.value.bonus ? wrapText(bonusText(stack.value, stack.value.bonus, figures), "  ") : [])),
    ...patterns.flatMap((pattern) => wrapText(patternText(pattern), "  ")),
    ...unknown.flatMap((line) => wrapText(line, "  ")),
  ];
}

/** A row that is met when all its members are. */
function patternText({ row, members, chanceOfAll, worst }: RowJudgement): string {
  if (!chanceOfAll.ok) return `"${row}" as a whole is not known: ${chanceOfAll.problems.map(describeProblem).join(" ")}`;
  return `"${row}" as a whole: ${members.length === 2 ? "both" : `all ${members.length}`} met with a chance of ${chanceText(chanceOfAll.value.chance)}; the worst is "${worst}".`;
}

/** Of a zone at maximum material: the table holds what is sure at any size. */
function bonusText({ characteristic }: Stack, { range, virtualCondition, chance }: Bonus, figures: Figures): string {
  const boundary = `a boundary of diameter ${short(virtualCondition, figures)} that its wall must not cross`;
  return `"${characteristic}" (M) is at maximum material and told without bonus, as ranking and the chance of all take it. With the bonus that its own size leaves, up to ${short(range.upper, figures)} (${boundary}), the chance is ${chanceText(chance)}. A shift by the size of a datum is not counted.`;
}

/** What the decision rule says of each characteristic; simple acceptance says no more than the columns of the table. */
function decided({ stacks }: Judgement, rule: Setup["decision"], figures: Figures): string[] {
  if (rule.ok && rule.value.name === "simple acceptance") return [];
  return stacks.flatMap((stack) =>
    stack.ok ? wrapText(verdictSentence(stack.value, rule, figuresOf(stack.value, figures).length), "  ") : [],
  );
}

function stackRow(stack: Stack, lengths: Figures): string[] {
  const figures = figuresOf(stack, lengths);
  const { characteristic, deviation, distribution, shares, chance } = stack;
  const within = [distribution.quantile(0.025), distribution.quantile(0.975)].map(figures.length).join(", ");
  const used = [shares.deviation, shares.rootSumSquare, shares.worstCase].map(shareText);
  return [characteristic, toleranceText(stack, figures), figures.length(deviation), within, ...used, chanceCell(chance)];
}
