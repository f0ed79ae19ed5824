import { describeProblem, type Outcome, type Problem } from "../base/outcome.ts";
import type { SetupEvaluation, StrategyEvaluation } from "../decision/setupEvaluation.ts";
import { evidenceInWords } from "../record/evidenceInWords.ts";
import { coverageProbability, expandedUncertainty } from "../record/expandedUncertainty.ts";
import { strategyInUse } from "../record/strategyInUse.ts";
import type { View } from "../tolerance/deviations.ts";
import type { Stack } from "../tolerance/stack.ts";
import type { Budget } from "../uncertainty/budget.ts";
import { formatWithUncertainty } from "../uncertainty/roundForReport.ts";
import { standardUncertaintyOf } from "../uncertainty/sourceDistribution.ts";
import { type Exchanged, exchangedResults } from "./exchangedResults.ts";
import type { ExchangeCell, ExchangeTable, ShownNumber } from "./exchangeTable.ts";

/** What leaves as cells, by name, in the order of a report. */
export const exchangedTables = {
  results: (evaluation) => withSupposed(evaluation, resultsTable(evaluation)),
  budget: (evaluation) => withSupposed(evaluation, budgetTable(evaluation)),
  characteristics: (evaluation) => withSupposed(evaluation, characteristicsTable(evaluation)),
  comparison: (evaluation) => withSupposed(evaluation, comparisonTable(evaluation)),
} as const satisfies Readonly<Record<string, (evaluation: Exchanged) => ExchangeTable>>;

export type ExchangedTable = keyof typeof exchangedTables;

/** Numbers that rest on what is only supposed say so in every row: rows are copied, sorted and read one by one. */
function withSupposed({ setup: { supposed } }: Exchanged, table: ExchangeTable): ExchangeTable {
  if (supposed.length === 0) return table;
  const words = supposed.join("; ");
  return {
    title: `${table.title}, SUPPOSED for the moment and not as stated`,
    columns: [...table.columns, "supposed"],
    rows: table.rows.map((row) => [...row, words]),
  };
}

/** Every result with its doubt, in base units: of this part, what the batch does, the cells of a person's own and every row of their tables; where one is not known, its row says why. */
function resultsTable(evaluation: Exchanged): ExchangeTable {
  const columns = [
    "result",
    "unit",
    "value",
    "standard uncertainty",
    "degrees of freedom",
    "coverage factor",
    "expanded uncertainty",
    "coverage probability",
    "note",
  ];
  const rows = exchangedResults(evaluation).map(({ id, unit, budget }): ExchangeCell[] => {
    if (!budget.ok) return [id, unit, "", "", "", "", "", "", inWords(budget.problems)];
    const { value, standardUncertainty: u } = budget.value;
    const { degreesOfFreedom, coverageFactor, expandedUncertainty: expanded } = expandedUncertainty(budget.value);
    return [
      id,
      unit,
      { number: value, shown: formatWithUncertainty(value, u).value },
      doubt(u),
      freedom(degreesOfFreedom),
      fixed(coverageFactor, 2),
      doubt(expanded),
      fixed(coverageProbability, 4),
      "",
    ];
  });
  return { title: `Results by ${inUseName(evaluation)}`, columns, rows };
}

/** Every source of every result: sensitivity, standard uncertainty and their product. Lengths in mm, angles in rad. */
function budgetTable(evaluation: Exchanged): ExchangeTable {
  const columns = [
    "result",
    "unit",
    "source",
    "family",
    "evidence",
    "sensitivity",
    "standard uncertainty of the source",
    "contribution",
    "share of the variance",
    "degrees of freedom",
  ];
  const rows = exchangedResults(evaluation).flatMap(({ id, unit, budget }) =>
    budget.ok ? budget.value.contributions.map((each) => [id, unit, ...contributionCells(each, budget.value)]) : [],
  );
  return { title: `Budgets by ${inUseName(evaluation)}`, columns, rows };
}

function contributionCells(
  { source, sensitivity, amount }: Budget["contributions"][number],
  { standardUncertainty }: Budget,
): ExchangeCell[] {
  const ownDoubt = standardUncertaintyOf(source.distribution);
  const share = amount === 0 ? 0 : (amount / standardUncertainty) ** 2;
  return [
    source.label,
    source.family,
    evidenceInWords(source.evidence),
    { number: sensitivity, shown: String(Number(sensitivity.toPrecision(4))) },
    doubt(ownDoubt),
    { number: amount, shown: amount < 0 ? `-${doubtText(-amount)}` : doubtText(amount) },
    fixed(share, 3),
    freedom(source.degreesOfFreedom),
  ];
}

const judgedColumns = [
  "unit",
  "lower limit",
  "upper limit",
  "deviation",
  "standard uncertainty",
  "standard uncertainty, Y",
  "root sum square from",
  "root sum square to",
  "worst case from",
  "worst case to",
  "share of the tolerance, deviation",
  "share, root sum square",
  "share, worst case",
  "chance of being met",
  "note",
];

/**
 * What the strategy in use does to the drawing's characteristics, of this part and in a batch. In a round zone lengths are diameters, and there are two
 * standard uncertainties, along X and along Y; elsewhere there is that of the deviation.
 */
function characteristicsTable(evaluation: SetupEvaluation): ExchangeTable {
  const inUse = strategyInUse(evaluation)?.evaluation;
  const rows =
    inUse === undefined ? [] : views.flatMap((view) => judgedRows(evaluation, inUse, view).map((row) => [viewNames[view], ...row]));
  return {
    title: `Characteristics by ${inUseName(evaluation)}`,
    columns: ["view", "characteristic", "kind", ...judgedColumns],
    rows,
  };
}

/**
 * Every strategy, the one to be preferred first, with its touches, its bottleneck in each view, its chance that all characteristics are met at once, and
 * each of them.
 */
function comparisonTable(evaluation: SetupEvaluation): ExchangeTable {
  const { ranking, strategies } = evaluation;
  const rows = ranking.order.flatMap((id, i) => {
    const outcome = strategies.find((strategy) => strategy.id === id)?.evaluation as Outcome<StrategyEvaluation>;
    const blanks = judgedColumns.map(() => "");
    if (!outcome.ok) return [[i + 1, id, "", "", "", "all", "", ...blanks.slice(1), inWords(outcome.problems)]];
    return views.flatMap((view) => {
      const { chanceOfAll, bottleneck } = outcome.value[view];
      const head: ExchangeCell[] = [i + 1, id, outcome.value.effort.touches, viewNames[view], bottleneck ?? ""];
      const all = chanceOfAll.ok ? [chance(chanceOfAll.value.chance), ""] : ["", inWords(chanceOfAll.problems)];
      return [
        [...head, "all", "", ...blanks.slice(2), ...all],
        ...judgedRows(evaluation, outcome.value, view).map((row) => [...head, ...row]),
      ];
    });
  });
  return {
    title: "Strategies side by side",
    columns: ["place", "strategy", "touches", "view", "bottleneck", "characteristic", "kind", ...judgedColumns],
    rows,
  };
}

function judgedRows({ setup }: SetupEvaluation, strategy: StrategyEvaluation, view: View): ExchangeCell[][] {
  return setup.part.characteristics.map(({ id, kind }, i) => {
    const stack = strategy[view].stacks[i] as Outcome<Stack>;
    return [id, kind, ...(stack.ok ? stackCells(stack.value) : [...judgedColumns.slice(1).map(() => ""), inWords(stack.problems)])];
  });
}

function stackCells({ unit, limits, deviation, rootSumSquare, worstCase, shares, chance: met, components }: Stack): ExchangeCell[] {
  const u = Math.hypot(...components.map(({ standardUncertainty }) => standardUncertainty));
  const length = (value: number): ExchangeCell =>
    Number.isFinite(value) ? { number: value, shown: formatWithUncertainty(value, u).value } : "none";
  const doubtOf = (component: Budget | undefined): ExchangeCell => (component === undefined ? "" : doubt(component.standardUncertainty));
  const share = (value: number): ExchangeCell => (Number.isFinite(value) ? fixed(value, 3) : "unlimited");
  const limit = (value: number): ExchangeCell => (Number.isFinite(value) ? value : "none");
  return [
    unit,
    limit(limits.lower),
    limit(limits.upper),
    length(deviation),
    doubtOf(components[0]),
    doubtOf(components[1]),
    length(rootSumSquare.lower),
    length(rootSumSquare.upper),
    length(worstCase.lower),
    length(worstCase.upper),
    share(shares.deviation),
    share(shares.rootSumSquare),
    share(shares.worstCase),
    chance(met),
    "",
  ];
}

const views = ["thisPart", "batch"] as const;
const viewNames: Readonly<Record<View, string>> = { thisPart: "this part", batch: "the batch" };

function inUseName(evaluation: SetupEvaluation): string {
  const id = strategyInUse(evaluation)?.evaluation.id;
  return id === undefined ? "no strategy" : `“${id}”`;
}

function inWords(problems: readonly Problem[]): string {
  return problems.map(describeProblem).join(" ");
}

function freedom(degreesOfFreedom: number): ExchangeCell {
  return degreesOfFreedom === Number.POSITIVE_INFINITY ? "unlimited" : fixed(degreesOfFreedom, 1);
}

function doubt(number: number): ShownNumber {
  return { number, shown: doubtText(number) };
}

function doubtText(u: number): string {
  return formatWithUncertainty(0, u).standardUncertainty;
}

function chance(number: number): ShownNumber {
  return fixed(number, 4);
}

function fixed(number: number, decimals: number): ShownNumber {
  return { number, shown: number.toFixed(decimals) };
}
