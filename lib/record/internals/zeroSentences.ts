import { listText } from "../../base/listText.ts";
import { axes } from "../../base/vector.ts";
import type { SetupEvaluation, StrategyEvaluation } from "../../decision/setupEvaluation.ts";
import type { View } from "../../tolerance/deviations.ts";
import type { JudgementSentence } from "../judgementSentences.ts";
import { chanceText, shareText } from "./chanceText.ts";
import { type Figures, figuresOf } from "./figures.ts";
import { bottleneckStack, stackNamed } from "./stackNamed.ts";

/** Why the zero that is known best is not always the best zero: the two rankings, by chance and by the zero's own uncertainty, where they disagree. */
export function zeroSentences({ strategies, ranking }: SetupEvaluation, figures: Figures): JudgementSentence[] {
  const solved = ranking.order.flatMap((id) =>
    strategies.flatMap(({ evaluation }) => (evaluation.ok && evaluation.value.id === id ? [evaluation.value] : [])),
  );
  const [first, ...others] = solved;
  if (first === undefined || !first.thisPart.chanceOfAll.ok) return [];
  const better = others.flatMap((other) => {
    const compared = compareZeros(other, first);
    return compared !== undefined && compared.ratio < 1 ? [{ other, ...compared }] : [];
  });
  const best = better.reduce<(typeof better)[number] | undefined>(
    (least, each) => (least && least.ratio <= each.ratio ? least : each),
    undefined,
  );
  if (best === undefined) return [];
  const against = best.axes.flatMap(({ axis, smaller, larger }) => {
    const [a, b] = [figures.uncertainty(smaller), figures.uncertainty(larger)];
    return a === b ? [] : [`${axis} ${a} against ${b} ${figures.unit}`];
  });
  const reasons = (["thisPart", "batch"] as const).flatMap((view) => reasonFor(best.other, first, view, figures));
  if (against.length === 0 || reasons.length === 0) return [];
  const text = `"${best.other.id}" knows its zero better than "${first.id}" (standard uncertainty ${listText(against)}) and is not the better strategy: that figure tells how well a point is found, not whether the drawing measures from it. ${reasons.join(" ")}`;
  return [{ kind: "smaller uncertainty", at: `strategies.${best.other.id}`, text }];
}

/** Standard uncertainties along the axes that both determine, mm, and the ratio of their root sums of squares. */
function compareZeros(other: StrategyEvaluation, first: StrategyEvaluation) {
  const along = axes.flatMap((axis, i) => {
    const [a, b] = [other.zero[i as 0 | 1 | 2], first.zero[i as 0 | 1 | 2]];
    return a.ok && b.ok ? [{ axis, smaller: a.value.standardUncertainty, larger: b.value.standardUncertainty }] : [];
  });
  const larger = Math.hypot(...along.map((each) => each.larger));
  return larger > 0 ? { ratio: Math.hypot(...along.map((each) => each.smaller)) / larger, axes: along } : undefined;
}

/** What the other strategy does to its bottleneck that the first does not; nothing where its chance is no smaller. */
function reasonFor(other: StrategyEvaluation, first: StrategyEvaluation, view: View, lengths: Figures): string[] {
  const stack = bottleneckStack(other[view]);
  const same = stack && stackNamed(first[view], stack.characteristic);
  if (stack === undefined || same === undefined || !(stack.chance < same.chance)) return [];
  // A difference that no chance shows gives no reason.
  if (chanceText(stack.chance) === chanceText(same.chance)) return [];
  const figures = figuresOf(stack, lengths);
  const chances = `its chance is ${chanceText(stack.chance)} against ${chanceText(same.chance)}`;
  if (view === "thisPart") {
    const off = stack.isRound ? "diameter used" : "deviation";
    return [
      `For this part it leaves "${stack.characteristic}" with a ${off} of ${figures.length(stack.deviation)} ${figures.unit}, ${shareText(stack.shares.deviation)} of the tolerance (${figures.length(same.deviation)} ${figures.unit} under "${first.id}"): ${chances}.`,
    ];
  }
  const grown = stack.rows
    .map((row) => ({
      row,
      here: Math.hypot(...row.amounts),
      there: Math.hypot(...(same.rows.find(({ source }) => source.id === row.source.id)?.amounts ?? [])),
    }))
    .reduce((most, each) => (each.here - each.there > most.here - most.there ? each : most));
  const there = grown.there > 0 ? `${figures.uncertainty(grown.there)} ${figures.unit}` : "nothing";
  return [
    `In the batch ${grown.row.source.label} puts ${figures.uncertainty(grown.here)} ${figures.unit} into "${stack.characteristic}" (${there} under "${first.id}"): ${chances}.`,
  ];
}
