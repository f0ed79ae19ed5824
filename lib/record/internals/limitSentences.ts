import { quotedList } from "../../base/listText.ts";
import type { StrategyEvaluation } from "../../decision/setupEvaluation.ts";
import type { View } from "../../tolerance/deviations.ts";
import type { Stack } from "../../tolerance/stack.ts";
import type { JudgementSentence } from "../judgementSentences.ts";
import { chanceText, shareText } from "./chanceText.ts";
import { type Figures, figuresOf } from "./figures.ts";
import { bottleneckStack } from "./stackNamed.ts";

/**
 * What limits strategies, and under which even the worst case is within the tolerances.
 *
 * @param told those whose bottlenecks are told
 * @param solved all of them, in their order
 */
export function limitSentences(
  told: readonly StrategyEvaluation[],
  solved: readonly StrategyEvaluation[],
  figures: Figures,
): JudgementSentence[] {
  return [...told.flatMap((each) => bottlenecks(each, figures)), ...worstCases(solved)];
}

function bottlenecks(strategy: StrategyEvaluation, figures: Figures): JudgementSentence[] {
  const told = views.flatMap(({ view, words }) => {
    const stack = bottleneckStack(strategy[view]);
    return stack ? [{ words, at: `part.characteristics.${stack.row}`, rest: limitationText(stack, figures) }] : [];
  });
  return sameSaidOnce(told).map(
    ({ words, at, rest }): JudgementSentence => ({
      kind: "bottleneck",
      at,
      text: `The bottleneck of "${strategy.id}" ${words} is ${rest}`,
    }),
  );
}

function limitationText(stack: Stack, lengths: Figures): string {
  const { characteristic, chance, shares, rows } = stack;
  const figures = figuresOf(stack, lengths);
  const largest = [...rows].sort((a, b) => Math.hypot(...b.amounts) - Math.hypot(...a.amounts))[0];
  const source = largest
    ? `Its largest source is ${largest.source.label} (${figures.uncertainty(Math.hypot(...largest.amounts))} ${figures.unit}).`
    : "Nothing in it is in doubt.";
  return `"${characteristic}": chance ${chanceText(chance)}, ${shareText(shares.rootSumSquare)} of the tolerance used at the root sum square and ${shareText(shares.worstCase)} in the worst case. ${source}`;
}

function worstCases(solved: readonly StrategyEvaluation[]): JudgementSentence[] {
  const told = views.flatMap(({ view, words }) => {
    const rest = worstCaseText(solved, view);
    return rest === undefined ? [] : [{ words, at: "strategies", rest }];
  });
  return sameSaidOnce(told).map(
    ({ words, at, rest }): JudgementSentence => ({ kind: "worst case", at, text: `In the worst case ${words} ${rest}` }),
  );
}

function worstCaseText(solved: readonly StrategyEvaluation[], view: View): string | undefined {
  const judged = solved.flatMap((strategy) => {
    const stacks = strategy[view].stacks.flatMap((stack) => (stack.ok ? [stack.value] : []));
    const worst = stacks.reduce<Stack | undefined>(
      (most, stack) => (most && most.shares.worstCase >= stack.shares.worstCase ? most : stack),
      undefined,
    );
    return worst && strategy[view].chanceOfAll.ok ? [{ id: strategy.id, worst }] : [];
  });
  if (judged.length === 0) return undefined;
  const kept = judged.filter(({ worst }) => worst.shares.worstCase <= 1).map(({ id }) => id);
  if (kept.length > 0)
    return `every characteristic stays within its tolerance under ${quotedList(kept)}${kept.length === judged.length ? "" : " only"}.`;
  const nearest = judged.reduce((best, each) => (each.worst.shares.worstCase < best.worst.shares.worstCase ? each : best));
  const uses = `"${nearest.worst.characteristic}" uses ${shareText(nearest.worst.shares.worstCase)}`;
  return `no strategy keeps every characteristic within its tolerance; nearest is "${nearest.id}", under which ${uses}.`;
}

const views = [
  { view: "thisPart", words: "for this part" },
  { view: "batch", words: "in the batch" },
] as const;

/** One sentence where both views say the same. */
function sameSaidOnce<T extends { readonly words: string; readonly rest: string }>(told: readonly T[]): T[] {
  const [first, second] = told;
  return first && second && first.rest === second.rest ? [{ ...first, words: `${first.words} and ${second.words}` }] : [...told];
}
