import { axes } from "../../lib/base/vector.ts";
import type { SetupEvaluation } from "../../lib/decision/setupEvaluation.ts";
import type { Stack } from "../../lib/tolerance/stack.ts";
import { comparisonOf } from "./comparison/comparisonOf.ts";
import { type DisplayUnit, unitOfStack, writerOf } from "./displayUnit.ts";
import type { FigureTable } from "./figureTable.ts";
import { formatMet, formatShare } from "./formatChance.ts";
import { outcomeInWords } from "./outcomeInWords.ts";
import type { StrategyComparisonOptions } from "./strategyComparison.ts";

/**
 * The table behind `strategyComparison`: per characteristic and strategy the deviation with its standard uncertainty, the shares and the chance, or why
 * they are not known; per strategy its bottleneck, its touches and the chance of all.
 */
export function comparisonTable(
  evaluation: SetupEvaluation,
  { view, unit }: Pick<StrategyComparisonOptions, "view" | "unit">,
): FigureTable {
  const { rows, columns } = comparisonOf(evaluation, view);
  return {
    caption: `Deviation with its standard uncertainty; share of the tolerance used (deviation; root sum square; worst case) and chance of being met, ${view === "thisPart" ? "this part" : "the batch"}; strategies in the order in which they should be preferred`,
    columns: ["characteristic", ...columns.map(({ id }) => id)],
    rows: [
      ...rows.map((name, row) => [
        name,
        ...columns.map(({ cells }) => {
          const cell = cells[row];
          if (cell === undefined || !cell.ok) return `not known: ${outcomeInWords(cell?.problems ?? [])}`;
          const { chance, worst } = cell.value;
          const { stack } = cell.value;
          const { shares } = stack;
          return `${worst === undefined ? "" : `${worst}: `}${deviationText(stack, unit)}; ${[shares.deviation, shares.rootSumSquare, shares.worstCase].map(formatShare).join("; ")}; met ${formatMet(chance)}`;
        }),
      ]),
      ["bottleneck", ...columns.map(({ bottleneck }) => bottleneck ?? "not known")],
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

/** `0.0021 mm (u 0.0083 mm)`; in a round zone the diameter used, with the doubts along X and Y. */
function deviationText(stack: Stack, lengths: DisplayUnit): string {
  const writer = writerOf(unitOfStack(stack, lengths));
  const { deviation, components } = stack;
  const largest = Math.max(...components.map(({ standardUncertainty }) => standardUncertainty));
  const doubts = components.map(({ standardUncertainty }, i) => {
    const { uncertainty } = writer.withUncertainty(0, standardUncertainty);
    return stack.isRound ? `${axes[i]} ${uncertainty}` : uncertainty;
  });
  return `${writer.withUncertainty(deviation, largest).value}${writer.suffix} (u ${doubts.join(", ")}${writer.suffix})`;
}
