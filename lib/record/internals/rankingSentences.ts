import { listText, quotedList } from "../../base/listText.ts";
import { failure, type Outcome, success } from "../../base/outcome.ts";
import { rankStrategies } from "../../decision/rankStrategies.ts";
import type { SetupEvaluation, StrategyEvaluation } from "../../decision/setupEvaluation.ts";
import { rowOf } from "../../part/part.ts";
import type { View } from "../../tolerance/deviations.ts";
import type { Judgement } from "../../tolerance/judgeStrategy.ts";
import type { JudgementSentence } from "../judgementSentences.ts";
import { strategyInUse } from "../strategyInUse.ts";
import { chanceText, sampledChanceText, shareText } from "./chanceText.ts";
import { varianceByEvidence } from "./evidenceWords.ts";
import type { Figures } from "./figures.ts";
import { limitSentences } from "./limitSentences.ts";
import { bottleneckStack } from "./stackNamed.ts";

/** Which strategy comes first, whether the one in use is that one, what each of the two rests on and what limits it. */
export function rankingSentences(evaluation: SetupEvaluation, figures: Figures): JudgementSentence[] {
  const solved = evaluation.ranking.order.flatMap((id) => evaluationOf(id, evaluation) ?? []);
  const first = solved[0];
  if (first === undefined) return [];
  const at = `strategies.${first.id}`;
  // Whose offset is typed is told of as well where another is ranked first.
  const inUse = strategyInUse(evaluation)?.evaluation;
  const told = inUse === undefined || inUse.id === first.id ? [first] : [first, inUse];
  const { chanceOfAll } = first.thisPart;
  if (!chanceOfAll.ok && !first.batch.chanceOfAll.ok) {
    const what = chanceOfAll.problems[0]?.what ?? "it cannot be judged";
    return [
      {
        kind: "ranking",
        at: "strategies",
        text: `The strategies are not ranked, because the chance of meeting the drawing is not known: ${what}.`,
      },
      ...choice(evaluation, first),
    ];
  }
  return [
    { kind: "ranking", at, text: [whoIsFirst(evaluation, first), ...tooClose(solved)].join(" ") },
    ...told.map((each): JudgementSentence => ({ kind: "evidence", at: `strategies.${each.id}`, text: restsOn(each, evaluation.location) })),
    ...choice(evaluation, first),
    ...limitSentences(told, solved, figures),
  ];
}

function evaluationOf(id: string, { strategies }: SetupEvaluation): StrategyEvaluation | undefined {
  const found = strategies.find((strategy) => strategy.id === id)?.evaluation;
  return found?.ok ? found.value : undefined;
}

function whoIsFirst(evaluation: SetupEvaluation, first: StrategyEvaluation): string {
  const { strategies, setup } = evaluation;
  // A pattern is one characteristic of the drawing.
  const count = new Set(setup.part.characteristics.map(rowOf)).size;
  const all = count === 1 ? "its characteristic" : `all ${count} characteristics`;
  const inBatch = ({ evaluation: each }: (typeof strategies)[number]): Outcome<Judgement> =>
    each.ok ? success(each.value.batch) : failure(...each.problems);
  const byBatch = rankStrategies(
    strategies.map((strategy) => ({ id: strategy.id, thisPart: inBatch(strategy), batch: inBatch(strategy) })),
  )[0];
  const other = byBatch === undefined || byBatch === first.id ? undefined : evaluationOf(byBatch, evaluation);
  const place = strategies.length === 1 ? "is the only strategy" : "is ranked first";
  if (other === undefined) {
    // What is not known of this part ranks nothing.
    const onlyBatch = !first.thisPart.chanceOfAll.ok && first.batch.chanceOfAll.ok;
    const views = strategies.length === 1 ? "" : onlyBatch ? " for the batch" : " for this part and for the batch";
    return `"${first.id}" ${place}${views}: the chance to meet ${all} is ${chanceOf(first, "thisPart")} for this part and ${chanceOf(first, "batch")} in the batch.`;
  }
  return (
    `"${first.id}" ${place} for this part (chance to meet ${all}: ${chanceOf(first, "thisPart")}; in the batch ${chanceOf(first, "batch")}), ` +
    `"${other.id}" for the batch (${chanceOf(other, "batch")}; for this part ${chanceOf(other, "thisPart")}): this part's sizes are known from its own touches, those of the next part are not.`
  );
}

function chanceOf(strategy: StrategyEvaluation, view: View): string {
  const { chanceOfAll } = strategy[view];
  return chanceOfAll.ok ? sampledChanceText(chanceOfAll.value) : "not known";
}

function tooClose([first, second]: readonly StrategyEvaluation[]): string[] {
  if (!first?.thisPart.chanceOfAll.ok || !second?.thisPart.chanceOfAll.ok) return [];
  const [a, b] = [first.thisPart.chanceOfAll.value, second.thisPart.chanceOfAll.value];
  if (Math.abs(a.chance - b.chance) > a.scatter + b.scatter) return [];
  return [
    `For this part "${first.id}" (${chanceText(a.chance)}) and "${second.id}" (${chanceText(b.chance)}) cannot be told apart by chance; the batch decides, and after it the share of the tolerances that is used.`,
  ];
}

function restsOn(strategy: StrategyEvaluation, location: SetupEvaluation["location"]): string {
  const { contacts, strategy: stated } = strategy.solution;
  const tools = [...new Set(contacts.map(({ tool }) => tool))];
  const met = [...new Set(contacts.map(({ element }) => element))];
  const fixture = met.filter((element) => location.isOnFixture(element));
  const sizes = stated.sizes === "measured" ? "sizes as measured on this part" : "sizes as drawn";
  const where =
    fixture.length === 0 ? "" : ` on ${quotedList(fixture)} of the fixture${fixture.length < met.length ? " and on the part" : ""}`;
  const touches = `${stated.touches.length === 1 ? "the touch" : "the touches"} ${quotedList(stated.touches)}${where} with ${quotedList(tools)}`;
  const found = stated.fixtureFrame
    ? `the frame "${stated.fixtureFrame.id}" of the fixture and its locators, without any touch on the part`
    : touches;
  const base = `"${strategy.id}" rests on ${found}, and on ${sizes}.`;
  const stack = bottleneckStack(strategy.thisPart) ?? bottleneckStack(strategy.batch);
  const shares = stack && varianceByEvidence(stack);
  if (stack === undefined || shares === undefined) return base;
  return `${base} The variance of "${stack.characteristic}", its bottleneck, comes ${listText(shares.map(({ words, share }) => `${shareText(share)} from ${words}`))}.`;
}

function choice(evaluation: SetupEvaluation, first: StrategyEvaluation): JudgementSentence[] {
  const inUse = strategyInUse(evaluation);
  if (inUse === undefined || !inUse.chosen || inUse.evaluation.id === first.id || !first.thisPart.chanceOfAll.ok) return [];
  const { id } = inUse.evaluation;
  return [
    {
      kind: "choice",
      at: "chosen",
      text: `The strategy in use, "${id}", is not the one ranked first: its chance is ${chanceOf(inUse.evaluation, "thisPart")} for this part and ${chanceOf(inUse.evaluation, "batch")} in the batch.`,
    },
  ];
}
