import { capitalise } from "../base/capitalise.ts";
import { describeProblem } from "../base/outcome.ts";
import { axes } from "../base/vector.ts";
import { strategyDeterminacy } from "../datum/strategyDeterminacy.ts";
import type { Improvement } from "../decision/improvement.ts";
import type { OwnEvaluation, SetupEvaluation, StrategyEvaluation } from "../decision/setupEvaluation.ts";
import type { View } from "../tolerance/deviations.ts";
import type { Budget } from "../uncertainty/budget.ts";
import type { Source } from "../uncertainty/source.ts";
import { standardUncertaintyOf } from "../uncertainty/sourceDistribution.ts";
import { assumptionSentences } from "./assumptionSentences.ts";
import { calibrationInWords, calibrationsOf, plainCalibration } from "./calibrationInWords.ts";
import { allowanceCells, allowanceSentences, isNear, moveSentences } from "./improvementText.ts";
import { chanceCell, chanceText, shareText } from "./internals/chanceText.ts";
import { checksumOfHead } from "./internals/checksumOfHead.ts";
import { evidenceClass, varianceByEvidence } from "./internals/evidenceWords.ts";
import { figuresIn, figuresOf } from "./internals/figures.ts";
import { plainNumber } from "./internals/plainNumber.ts";
import { sourcesOf } from "./internals/plainSources.ts";
import { bottleneckStack } from "./internals/stackNamed.ts";
import { type JudgementSentence, judgementSentences } from "./judgementSentences.ts";
import { obstacles } from "./obstacles.ts";
import { effortInWords } from "./optimalInWords.ts";
import { riskSentences } from "./riskSentences.ts";
import type { RecordHead } from "./setupRecord.ts";
import { strategyInUse } from "./strategyInUse.ts";
import type { StudyResult } from "./studyResults.ts";
import { studySentences } from "./studyText.ts";
import { verdictSentence } from "./verdictSentence.ts";

/** The author's own paragraphs: opinion, kept as it was written. */
export interface AuthorsWords {
  readonly choice: string;
  readonly assumptions: string;
  readonly changes: string;
  readonly risks: string;
}

/** What was worked out for the strategy in use beside its evaluation. */
export interface RationaleWork {
  readonly help: Pick<Improvement, "moves" | "allowances"> | undefined;
  /** The chance that every characteristic is to keep, for the room of each doubt. */
  readonly wanted: number;
  readonly study: readonly StudyResult[];
}

/** Raised when an entry changes its meaning or goes away. */
const rationaleVersion = 1;

/** A rationale as plain data (see `rationaleOf`). */
export type SetupRationale = ReturnType<typeof setupRationale>;

/** Why a zero is where it is, as plain data: written from the setup's own numbers, with its author's paragraphs beside them. */
export function setupRationale(
  head: RecordHead,
  words: AuthorsWords,
  evaluation: SetupEvaluation & Partial<OwnEvaluation>,
  work: RationaleWork,
  unit: "mm" | "inch",
) {
  const shown: typeof evaluation = { ...evaluation, setup: { ...evaluation.setup, unit } };
  const strategy = strategyInUse(evaluation)?.evaluation;
  // What a zero rests on is told of the one that is typed, whatever is ranked first.
  const isOfAnother = ({ kind, at }: JudgementSentence) =>
    kind === "evidence" && strategy !== undefined && at !== `strategies.${strategy.id}`;
  const sentences = (kinds: ReadonlySet<JudgementSentence["kind"]>) =>
    judgementSentences(shown).flatMap((each) => (kinds.has(each.kind) && !isOfAnother(each) ? [each.text] : []));
  return {
    format: "datumbook rationale" as const,
    version: rationaleVersion,
    title: head.title,
    part: head.part,
    revision: head.revision,
    operation: evaluation.setup.operation?.id ?? null,
    machine: evaluation.setup.machine.name,
    unit,
    preparedBy: head.preparedBy,
    checkedBy: head.checkedBy,
    date: head.date,
    checksum: checksumOfHead(head),
    problems: obstacles(evaluation).map(describeProblem),
    strategy: strategy?.id ?? null,
    alternatives: alternativesOf(shown, strategy),
    reasons: sentences(reasons),
    evidence: sentences(
      new Set<JudgementSentence["kind"]>([
        "evidence",
        "size agrees",
        "size disagrees",
        "touches disagree",
        "consistency",
        "tilt",
        "skew",
        "form error",
        "planned places",
      ]),
    ),
    sources: sourceRows(shown, strategy),
    varianceByEvidence: evidenceShares(strategy),
    calibrations: calibrationsOf(evaluation).map(({ of, id, calibration }) => ({
      of,
      id,
      ...plainCalibration(calibration),
      written: calibrationInWords(calibration),
    })),
    assumptions: strategy === undefined ? [] : assumptionSentences(shown, strategy),
    changes: strategy === undefined ? null : changesOf(shown, strategy, work),
    firstOrder: studySentences(work.study, unit).map(capitalise),
    decision: strategy === undefined ? [] : [...decisionSentences(shown, strategy), ...sentences(new Set(["inspection"]))],
    risks: strategy === undefined ? [] : riskSentences(shown, strategy),
    author: { ...words },
  };
}

const reasons = new Set<JudgementSentence["kind"]>(["ranking", "choice", "bottleneck", "worst case", "smaller uncertainty"]);

/** One strategy beside the others. */
interface Alternative {
  readonly place: number;
  readonly id: string;
  readonly inUse: boolean;
  /** Which of the usual strategies it is, and what it takes, in words. */
  readonly is: string;
  readonly problems: readonly string[];
  readonly chances: { readonly [V in View]: number | null } | null;
  /** Null where it could not be solved. */
  readonly written: {
    readonly thisPart: string;
    readonly batch: string;
    readonly uncertainties: readonly { readonly axis: string; readonly text: string }[];
    readonly bottleneck: string;
    readonly used: string;
  } | null;
}

/** Every strategy, the one to be preferred first. */
function alternativesOf(shown: SetupEvaluation, inUse: StrategyEvaluation | undefined): Alternative[] {
  const { strategies, ranking, location, setup } = shown;
  const figures = figuresIn(setup.unit);
  return ranking.order.flatMap((id, i): Alternative[] => {
    const found = strategies.find((strategy) => strategy.id === id)?.evaluation;
    if (found === undefined) return [];
    const place = i + 1;
    if (!found.ok)
      return [{ place, id, inUse: false, is: "", problems: found.problems.map(describeProblem), chances: null, written: null }];
    const each = found.value;
    const determinacy = strategyDeterminacy({ ok: true, value: each.solution }, location);
    const chance = (view: View) => (each[view].chanceOfAll.ok ? each[view].chanceOfAll.value.chance : null);
    const cell = (view: View) => (each[view].chanceOfAll.ok ? chanceCell(each[view].chanceOfAll.value.chance) : "not known");
    const worst = bottleneckStack(each.thisPart);
    return [
      {
        place,
        id,
        inUse: inUse?.id === id,
        is: determinacy.ok ? `${determinacy.value.words}; ${effortInWords(each)}` : effortInWords(each),
        problems: [],
        chances: { thisPart: chance("thisPart"), batch: chance("batch") },
        written: {
          thisPart: cell("thisPart"),
          batch: cell("batch"),
          uncertainties: axes.map((axis, k) => {
            const budget = each.zero[k as 0 | 1 | 2];
            return { axis, text: budget.ok ? figures.uncertainty(budget.value.standardUncertainty) : "-" };
          }),
          bottleneck: worst?.characteristic ?? "-",
          used: worst === undefined ? "-" : shareText(worst.shares.worstCase),
        },
      },
    ];
  });
}

/** Every source of the setup with its evidence, and what one standard uncertainty of it does to zero and to the bottleneck of the strategy in use. */
function sourceRows(shown: SetupEvaluation & Partial<OwnEvaluation>, strategy: StrategyEvaluation | undefined) {
  const figures = figuresIn(shown.setup.unit);
  const stack = strategy && (bottleneckStack(strategy.thisPart) ?? bottleneckStack(strategy.batch));
  const variance = stack?.rows.reduce((sum, { amounts }) => sum + amounts.reduce((own, amount) => own + amount * amount, 0), 0) ?? 0;
  const amountIn = (budget: Budget | undefined, id: string) => budget?.contributions.find(({ source }) => source.id === id)?.amount ?? 0;
  const sources = sourcesOf(shown);
  // Of several operations each has its own: their names then tell them apart.
  const nameOf = ({ id, label }: Source) => (sources.some((other) => other.id !== id && other.label === label) ? id : label);
  return sources
    .map((source) => {
      const zero = axes.map((_, i) => {
        const budget = strategy?.zero[i as 0 | 1 | 2];
        return amountIn(budget?.ok ? budget.value : undefined, source.id);
      });
      const row = stack?.rows.find(({ source: own }) => own.id === source.id);
      const square = row?.amounts.reduce((sum, amount) => sum + amount * amount, 0) ?? 0;
      const share = variance > 0 ? square / variance : 0;
      const text = (amount: number, i: number) => {
        const budget = strategy?.zero[i as 0 | 1 | 2];
        const whole = budget?.ok ? budget.value.standardUncertainty : 0;
        return Math.abs(amount) <= tellingShare * whole ? "" : `${amount < 0 ? "-" : "+"}${figures.uncertainty(Math.abs(amount))}`;
      };
      return {
        source: source.id,
        label: nameOf(source),
        family: source.family,
        evidence: source.evidence,
        standardUncertainty: standardUncertaintyOf(source.distribution),
        degreesOfFreedom: plainNumber(source.degreesOfFreedom),
        zero,
        shareOfBottleneck: share,
        written: {
          evidence: evidenceClass(source.evidence),
          zero: zero.map(text),
          share: square === 0 ? "" : share < smallShare ? "<0.5 %" : shareText(share),
        },
      };
    })
    .sort(
      (a, b) =>
        b.shareOfBottleneck - a.shareOfBottleneck || Math.hypot(...b.zero) - Math.hypot(...a.zero) || (a.source < b.source ? -1 : 1),
    );
}

const smallShare = 0.005;
/** Of a standard uncertainty: less is left out of the table, and kept in the data. */
const tellingShare = 0.001;

function evidenceShares(strategy: StrategyEvaluation | undefined) {
  const stack = strategy && (bottleneckStack(strategy.thisPart) ?? bottleneckStack(strategy.batch));
  if (stack === undefined) return null;
  return {
    characteristic: stack.characteristic,
    shares: (varianceByEvidence(stack) ?? []).map(({ words, share }) => ({ words, share, written: shareText(share) })),
  };
}

/** What would put another strategy in the place of this one, what would help it, and how far each doubt may grow. */
function changesOf(shown: SetupEvaluation, strategy: StrategyEvaluation, { help, wanted }: RationaleWork) {
  return {
    rivals: (["thisPart", "batch"] as const).flatMap((view) => rivalSentence(shown, strategy, view)),
    moves: help === undefined ? [] : moveSentences(help.moves),
    wanted,
    room: (help?.allowances ?? []).filter(isNear).map((allowance) => {
      const [mayBe, boundBy] = allowanceCells(allowance);
      return { label: allowance.doubt.label, factor: allowance.factor, written: { mayBe, boundBy } };
    }),
    others: help === undefined ? [] : allowanceSentences(help.allowances),
  };
}

/** How far the next best strategy is behind, or ahead, in one view. */
function rivalSentence({ strategies }: SetupEvaluation, strategy: StrategyEvaluation, view: View): string[] {
  const own = strategy[view].chanceOfAll;
  if (!own.ok) return [];
  const [best] = strategies
    .flatMap(({ evaluation }) => {
      const chance = evaluation.ok && evaluation.value.id !== strategy.id ? evaluation.value[view].chanceOfAll : undefined;
      return evaluation.ok && chance?.ok ? [{ id: evaluation.value.id, chance: chance.value.chance }] : [];
    })
    .sort((a, b) => b.chance - a.chance);
  if (best === undefined) return [];
  const where = view === "thisPart" ? "For this part" : "In the batch";
  const mine = own.value.chance;
  if (chanceText(mine) === chanceText(best.chance))
    return [`${where} "${best.id}" cannot be told from it by chance (${chanceText(mine)}): little would put the other in its place.`];
  return mine >= best.chance
    ? [
        `${where} the next best is "${best.id}" with ${chanceText(best.chance)} against ${chanceText(mine)}: it would be chosen if what it rests on became so much better known, or this one so much worse.`,
      ]
    : [`${where} "${best.id}" has the better chance, ${chanceText(best.chance)} against ${chanceText(mine)}.`];
}

function decisionSentences({ setup }: SetupEvaluation, strategy: StrategyEvaluation): string[] {
  const lengths = figuresIn(setup.unit);
  const rule = setup.decision.ok ? setup.decision.value.name : undefined;
  const means = {
    "simple acceptance": "what measures within its limits is accepted, and both sides share the risk (JCGM 106:2012, 8.2)",
    "guarded acceptance": "accepted only where a guard band inside the limits is kept as well (JCGM 106:2012, 8.3.2)",
    "guarded rejection": "rejected only beyond a guard band outside the limits (JCGM 106:2012, 8.3.3)",
    "proof either way": "conformity and nonconformity are both to be proven; between them neither is (ISO 14253-1:2017)",
  } as const;
  return [
    rule === undefined
      ? `The decision rule cannot be read: ${setup.decision.ok ? "" : setup.decision.problems.map(describeProblem).join(" ")}`
      : `The rule is ${rule}: ${means[rule]}.`,
    ...strategy.thisPart.stacks.flatMap((stack) =>
      stack.ok ? [verdictSentence(stack.value, setup.decision, figuresOf(stack.value, lengths).length)] : [],
    ),
  ];
}
