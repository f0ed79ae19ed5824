import { describeProblem, type Outcome } from "../base/outcome.ts";
import { millimetresPerInch } from "../base/quantity.ts";
import { axes } from "../base/vector.ts";
import type { SetupEvaluation, StrategyEvaluation } from "../decision/setupEvaluation.ts";
import type { View } from "../tolerance/deviations.ts";
import type { Judgement } from "../tolerance/judgeStrategy.ts";
import { formatFixed } from "../uncertainty/roundForReport.ts";
import type { ComparedEvaluation, EvaluationChange } from "./evaluationChange.ts";
import { chanceText } from "./internals/chanceText.ts";
import { type Figures, figuresIn, figuresOf, resultFigures } from "./internals/figures.ts";
import { ownChanges } from "./internals/ownChanges.ts";
import { signed } from "./internals/signed.ts";
import { stackNamed } from "./internals/stackNamed.ts";
import { obstacles } from "./obstacles.ts";
import { strategyInUse } from "./strategyInUse.ts";

/**
 * What differs between two evaluations as far as the digits that are reported can tell, most important first: the zero of the strategy in use, what
 * is typed, the chances, the bottleneck, single characteristics, a person's own cells, the ranking, what became a problem and what no longer is one.
 */
export function evaluationChanges(before: ComparedEvaluation, after: ComparedEvaluation): EvaluationChange[] {
  const [old, now] = [strategyInUse(before)?.evaluation, strategyInUse(after)?.evaluation];
  const figures = figuresIn(after.setup.unit);
  return [
    ...inUse(old, now, after.setup.chosen),
    ...results(old, now, figures),
    ...ownChanges(before, after),
    ...rankingChange(before, after),
    ...problemChanges(before, after),
  ];
}

/** Without a zero there is nothing else to tell. */
function results(old: InUse, now: InUse, figures: Figures): EvaluationChange[] {
  if (now === undefined) return [];
  return [
    ...axes.flatMap((axis, i) => zeroChange(axis, i as 0 | 1 | 2, old, now, figures)),
    ...turnChange(old, now),
    ...offsetChange(old, now),
    ...(["thisPart", "batch"] as const).flatMap((view) => [
      ...chanceChange(view, old?.[view], now?.[view]),
      ...bottleneckChange(view, old?.[view], now?.[view]),
    ]),
    ...characteristicChanges(old?.thisPart, now.thisPart, figures),
  ];
}

type InUse = StrategyEvaluation | undefined;

function inUse(old: InUse, now: InUse, chosen: string): EvaluationChange[] {
  if (old?.id === now?.id) return [];
  if (now === undefined) {
    const what = chosen === "" ? "no strategy gives a zero any more" : `the strategy in use, "${chosen}", gives no zero`;
    return [{ at: "strategies", sentence: `${what}; before, "${old?.id}" gave it` }];
  }
  const was = old === undefined ? "before there was none" : `it was "${old.id}"`;
  return [{ at: `strategies.${now.id}`, sentence: `the zero is now taken from "${now.id}"; ${was}` }];
}

function zeroChange(axis: string, i: 0 | 1 | 2, old: InUse, now: InUse, figures: Figures): EvaluationChange[] {
  const at = `strategies.${(now ?? old)?.id ?? ""}`;
  const name = `zero ${axis}`;
  const [was, is] = [known(old?.zero[i]), known(now?.zero[i])];
  if (was === undefined && is === undefined) return [];
  if (is === undefined) return [{ at, sentence: `${name} is not known any more${reasonOf(now?.zero[i])}` }];
  const { value, expandedUncertainty } = figures.result(is);
  if (was === undefined)
    return [
      { at, sentence: `${name} is known now: ${value} ${figures.unit}, expanded uncertainty ${expandedUncertainty} ${figures.unit}` },
    ];
  const moved = is.value - was.value;
  const decimals = decimalsOf(value);
  const step = formatFixed(figures.unit === "in" ? moved / millimetresPerInch : moved, decimals);
  const changes: EvaluationChange[] = [];
  if (/[1-9]/.test(step)) {
    const share =
      is.standardUncertainty > 0 ? `, ${formatFixed(Math.abs(moved) / is.standardUncertainty, 1)} times its standard uncertainty` : "";
    changes.push({
      at,
      move: {
        by: moved,
        valueIn: (evaluation) => known(strategyInUse(evaluation)?.evaluation.zero[i])?.value,
        inWords: (part) => `${signed(figures.length(part))} ${figures.unit}`,
      },
      sentence: `${name} moved ${signed(step)} ${figures.unit} to ${value} ${figures.unit}${share}`,
    });
  }
  const [uncertaintyWas, uncertaintyIs] = [figures.uncertainty(was.standardUncertainty), figures.uncertainty(is.standardUncertainty)];
  if (uncertaintyWas !== uncertaintyIs) {
    const way = is.standardUncertainty > was.standardUncertainty ? "grew" : "shrank";
    changes.push({ at, sentence: `the standard uncertainty of ${name} ${way} from ${uncertaintyWas} to ${uncertaintyIs} ${figures.unit}` });
  }
  return changes;
}

function turnChange(old: InUse, now: InUse): EvaluationChange[] {
  const [was, is] = [known(old?.rotation), known(now?.rotation)];
  if (was === undefined || is === undefined) return [];
  const degrees = 180 / Math.PI;
  const { value } = resultFigures(is, degrees, 5);
  // Half a turn and half a turn the other way are the same.
  const difference = is.value - was.value;
  const step = formatFixed((difference - 2 * Math.PI * Math.round(difference / (2 * Math.PI))) * degrees, decimalsOf(value));
  return /[1-9]/.test(step)
    ? [{ at: `strategies.${now?.id}`, sentence: `the turn about Z changed by ${signed(step)} degrees to ${value} degrees` }]
    : [];
}

function offsetChange(old: InUse, now: InUse): EvaluationChange[] {
  const lines = (strategy: InUse) => (strategy?.offset.ok ? strategy.offset.value.lines.join(", ") : "nothing");
  const [was, is] = [lines(old), lines(now)];
  return was === is ? [] : [{ at: "machine", sentence: `what is typed is now ${is}; it was ${was}` }];
}

const views: Readonly<Record<View, string>> = { thisPart: "this part", batch: "the batch" };

function chanceChange(view: View, old: Judgement | undefined, now: Judgement | undefined): EvaluationChange[] {
  const [was, is] = [known(old?.chanceOfAll), known(now?.chanceOfAll)];
  const what = `the chance that all are met, ${views[view]},`;
  const at = "part.characteristics";
  if (is === undefined) return was === undefined ? [] : [{ at, sentence: `${what} is not known any more${reasonOf(now?.chanceOfAll)}` }];
  if (was === undefined) return [{ at, sentence: `${what} is known now: ${chanceText(is.chance)}` }];
  if (chanceText(was.chance) === chanceText(is.chance)) return [];
  const way = is.chance > was.chance ? "rose" : "fell";
  const scatter = Math.abs(is.chance - was.chance) <= was.scatter + is.scatter ? ", no more than its trials scatter" : "";
  return [{ at, sentence: `${what} ${way} from ${chanceText(was.chance)} to ${chanceText(is.chance)}${scatter}` }];
}

function bottleneckChange(view: View, old: Judgement | undefined, now: Judgement | undefined): EvaluationChange[] {
  const [was, is] = [old?.bottleneck, now?.bottleneck];
  if (is === undefined || was === undefined || is === was) return [];
  return [
    {
      at: `part.characteristics.${stackNamed(now as Judgement, is)?.row ?? is}`,
      sentence: `"${is}" became the bottleneck of ${views[view]}; it was "${was}"`,
    },
  ];
}

/** Characteristics told one by one; those that changed most. */
const mostCharacteristics = 6;

function characteristicChanges(old: Judgement | undefined, now: Judgement | undefined, lengths: Figures): EvaluationChange[] {
  if (old === undefined || now === undefined) return [];
  const changes = now.stacks.flatMap((each) => {
    const was = each.ok ? stackNamed(old, each.value.characteristic) : undefined;
    if (!each.ok || was === undefined) return [];
    const is = each.value;
    const figures = figuresOf(is, lengths);
    const [chances, deviations] = [
      [was.chance, is.chance].map(chanceText),
      [was.deviation, is.deviation].map((value) => figures.length(value)),
    ];
    const told = [
      deviations[0] === deviations[1]
        ? ""
        : `${is.isRound ? "diameter used" : "deviation"} from ${deviations[0]} to ${deviations[1]} ${figures.unit}`,
      chances[0] === chances[1] ? "" : `chance from ${chances[0]} to ${chances[1]}`,
    ].filter((text) => text !== "");
    if (told.length === 0) return [];
    const size = Math.abs(is.chance - was.chance) + Math.abs(is.shares.deviation - was.shares.deviation);
    return [
      {
        size,
        change: { at: `part.characteristics.${is.row}`, sentence: `"${is.characteristic}" of this part: ${told.join(", ")}` },
      },
    ];
  });
  const largest = [...changes].sort((a, b) => b.size - a.size).slice(0, mostCharacteristics);
  const left = changes.length - largest.length;
  const rest =
    left === 0
      ? []
      : [{ at: "part.characteristics", sentence: `${left} more ${left === 1 ? "characteristic" : "characteristics"} changed less` }];
  return [...largest.map(({ change }) => change), ...rest];
}

function rankingChange(
  {
    ranking: {
      order: [was],
    },
  }: SetupEvaluation,
  {
    ranking: {
      order: [is],
    },
  }: SetupEvaluation,
): EvaluationChange[] {
  if (is === undefined || was === undefined || is === was) return [];
  return [{ at: `strategies.${is}`, sentence: `"${is}" is now ranked first; it was "${was}"` }];
}

function problemChanges(before: SetupEvaluation, after: SetupEvaluation): EvaluationChange[] {
  const [olds, news] = [obstacles(before), obstacles(after)].map(
    (problems) => new Map(problems.map((problem) => [describeProblem(problem), problem.at])),
  );
  const fresh = [...(news ?? [])].filter(([line]) => !olds?.has(line));
  const gone = [...(olds ?? [])].filter(([line]) => !news?.has(line));
  return [
    ...fresh.map(([line, at]) => ({ at, sentence: `a new problem: ${line.replace(/\.$/, "")}` })),
    ...gone.map(([line, at]) => ({ at, sentence: `no problem any more: ${line.replace(/\.$/, "")}` })),
  ];
}

function known<T>(outcome: Outcome<T> | undefined): T | undefined {
  return outcome?.ok ? outcome.value : undefined;
}

function reasonOf(outcome: Outcome<unknown> | undefined): string {
  const what = outcome === undefined || outcome.ok ? undefined : outcome.problems[0]?.what;
  return what === undefined ? "" : `: ${what}`;
}

function decimalsOf(text: string): number {
  return text.split(".")[1]?.length ?? 0;
}
