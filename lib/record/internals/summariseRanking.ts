import { describeProblem } from "../../base/outcome.ts";
import type { SetupEvaluation, StrategyEvaluation } from "../../decision/setupEvaluation.ts";
import type { View } from "../../tolerance/deviations.ts";
import { chanceCell } from "./chanceText.ts";
import type { Figures } from "./figures.ts";
import { textTable } from "./textTable.ts";
import { wrapText } from "./wrapText.ts";

/** All strategies side by side, the one to be preferred first; those that could not be solved with their reasons below. */
export function summariseRanking({ strategies, ranking, setup }: SetupEvaluation, figures: Figures): string[] {
  const ordered = ranking.order.flatMap((id) => strategies.find((strategy) => strategy.id === id) ?? []);
  const rows = ordered.flatMap(({ id, evaluation }, i) => {
    if (!evaluation.ok) return [];
    const { zero, thisPart } = evaluation.value;
    const inUse = id === setup.chosen ? " (in use)" : "";
    const uncertainties = zero.map((axis) => (axis.ok ? figures.uncertainty(axis.value.standardUncertainty) : "-"));
    return [
      [
        `${i + 1}. ${id}${inUse}`,
        chance(evaluation.value, "thisPart"),
        chance(evaluation.value, "batch"),
        ...uncertainties,
        thisPart.bottleneck ?? "-",
      ],
    ];
  });
  const unsolved = ordered.flatMap(({ id, evaluation }) =>
    evaluation.ok
      ? []
      : evaluation.problems.flatMap((problem) => wrapText(`"${id}" could not be solved: ${describeProblem(problem)}`, "  ")),
  );
  return [...(rows.length > 0 ? textTable(columns, rows) : []), ...unsolved];
}

const columns = [
  { title: "strategy", align: "left" },
  { title: "chance, this part", align: "right" },
  { title: "chance, batch", align: "right" },
  { title: "u(X)", align: "right" },
  { title: "u(Y)", align: "right" },
  { title: "u(Z)", align: "right" },
  { title: "bottleneck", align: "left" },
] as const;

function chance(strategy: StrategyEvaluation, view: View): string {
  const { chanceOfAll } = strategy[view];
  return chanceOfAll.ok ? chanceCell(chanceOfAll.value.chance) : "not known";
}
