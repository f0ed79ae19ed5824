import type { SetupEvaluation } from "../../lib/decision/setupEvaluation.ts";
import { comparisonOf } from "./comparison/comparisonOf.ts";
import type { FigureTable } from "./figureTable.ts";
import { formatMet, formatShare } from "./formatChance.ts";
import { outcomeInWords } from "./outcomeInWords.ts";
import type { StrategyComparisonOptions } from "./strategyComparison.ts";

/** The table behind `strategyComparison`: per characteristic and strategy the shares and the chance, or why they are not known. */
export function comparisonTable(evaluation: SetupEvaluation, { view }: Pick<StrategyComparisonOptions, "view">): FigureTable {
  const { rows, columns } = comparisonOf(evaluation, view);
  return {
    caption: `Share of the tolerance used (deviation; root sum square; worst case) and chance of being met, ${view === "thisPart" ? "this part" : "the batch"}; strategies in the order in which they should be preferred`,
    columns: ["characteristic", ...columns.map(({ id }) => id)],
    rows: [
      ...rows.map((name, row) => [
        name,
        ...columns.map(({ cells }) => {
          const cell = cells[row];
          if (cell === undefined || !cell.ok) return `not known: ${outcomeInWords(cell?.problems ?? [])}`;
          const { chance, worst } = cell.value;
          const { shares } = cell.value.stack;
          return `${worst === undefined ? "" : `${worst}: `}${[shares.deviation, shares.rootSumSquare, shares.worstCase].map(formatShare).join("; ")}; met ${formatMet(chance)}`;
        }),
      ]),
      ["touches", ...columns.map(({ touches }) => (touches === undefined ? "not known" : String(touches)))],
      [
        "chance of all",
        ...columns.map(({ chanceOfAll: together }) =>
          together.ok ? formatMet(together.value.chance) : `not known: ${outcomeInWords(together.problems)}`,
        ),
      ],
    ],
  };
}
