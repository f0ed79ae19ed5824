import { evidenceInWords } from "../../lib/record/evidenceInWords.ts";
import type { Budget } from "../../lib/uncertainty/budget.ts";
import type { BudgetBarsOptions } from "./budgetBars.ts";
import { budgetSummary } from "./budgetSummary.ts";
import { writerOf } from "./displayUnit.ts";
import type { FigureTable } from "./figureTable.ts";
import { formatShare } from "./formatChance.ts";

/** The table behind `budgetBars`: every source, largest first. */
export function budgetTable(budget: Budget, { title, unit, isSize }: Pick<BudgetBarsOptions, "title" | "unit" | "isSize">): FigureTable {
  const writer = writerOf(unit);
  const summary = budgetSummary(budget, writer, isSize);
  const { decimals } = writer.withUncertainty(0, budget.standardUncertainty);
  const unitName = writer.suffix === "" ? "" : `,${writer.suffix.startsWith(" ") ? "" : " "}${writer.suffix}`;
  return {
    caption: `Where the doubt in ${title} comes from; ${summary}`,
    columns: [
      "source",
      "family",
      `effect of one standard uncertainty${unitName}`,
      "share of the variance",
      "degrees of freedom",
      "evidence",
    ],
    rows: budget.contributions.map(({ source, amount }) => [
      source.label,
      source.family,
      writer.signed(amount, decimals + 1),
      formatShare(amount === 0 ? 0 : (amount / budget.standardUncertainty) ** 2),
      source.degreesOfFreedom === Number.POSITIVE_INFINITY ? "unlimited" : String(Math.round(source.degreesOfFreedom * 10) / 10),
      evidenceInWords(source.evidence),
    ]),
  };
}
