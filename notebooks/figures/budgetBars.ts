import { capitalise } from "../../lib/base/capitalise.ts";
import { type Budget, byFamily, type Contribution } from "../../lib/uncertainty/budget.ts";
import { budgetLayout, decimalsOfBudget, headingHeight } from "./budget/budgetLayout.ts";
import { drawFamily, drawRow } from "./budget/drawRow.ts";
import { splitBudget } from "./budget/splitBudget.ts";
import { budgetSummary } from "./budgetSummary.ts";
import { type DisplayUnit, type UnitWriter, writerOf } from "./displayUnit.ts";
import { familyPatterns } from "./familyPatterns.ts";
import { type FigureEnvironment, type FigureOptions, openSheet } from "./figure.ts";
import { formatShare } from "./formatChance.ts";
import { pathOf } from "./svgBuilder.ts";
import { writeLines } from "./writeLines.ts";

export interface BudgetBarsOptions extends FigureOptions {
  /** What the budget is of, for example `zero X of corner on C`. */
  readonly title: string;
  readonly unit: DisplayUnit;
  /** Of a size u is told relative to it as well; of a coordinate, a deviation or an angle that would say nothing. */
  readonly isSize?: boolean;
}

/**
 * Where the doubt of a result comes from: a signed bar by source, what one
 * standard uncertainty of it does. Families keep their fixed order and within one
 * the larger amount comes first; the smallest sources that make less than 1 % of
 * the variance together, and what is beyond twenty-four rows, are one row "n more".
 */
export function budgetBars(budget: Budget, options: BudgetBarsOptions, environment: FigureEnvironment = {}): SVGSVGElement {
  const writer = writerOf(options.unit);
  const summary = budgetSummary(budget, writer, options.isSize);
  const { shown, rest } = splitBudget(budget);
  const title = `Where the doubt in ${options.title} comes from`;
  const sheet = openSheet(
    { ...options, kind: "budget", subject: options.title, title, description: describe(budget, shown, summary, writer) },
    environment,
  );
  const layout = budgetLayout(budget, shown, rest, sheet, writer);

  const content: SVGElement[] = [];
  let y = 4;
  for (const family of byFamily(budget)) {
    const rows = shown.filter(({ source }) => source.family === family.family);
    if (rows.length === 0) continue;
    content.push(...drawFamily(family, y, layout));
    y += headingHeight;
    for (const row of rows) {
      content.push(drawRow(row.source.label, row.amount, layout.writer.signed(row.amount, layout.decimals), y, layout, row.source.family));
      y += layout.rowHeight;
    }
    y += 4;
  }
  if (rest.length > 0) {
    const together = rootSum(rest);
    const label = `${rest.length} more, ${formatShare((together / budget.standardUncertainty) ** 2)} of the variance`;
    content.push(drawRow(label, together, writer.fixed(together, layout.decimals), y, layout));
    y += layout.rowHeight + 4;
  }
  if (shown.length > 0) {
    content.push(
      drawRow(
        "together, root sum square",
        budget.standardUncertainty,
        writer.fixed(budget.standardUncertainty, layout.decimals),
        y,
        layout,
      ),
    );
    if (layout.beside)
      content.unshift(sheet.draw("path", { class: "fig-axis", d: pathOf("M", layout.zero, 2, "V", y + layout.rowHeight) }));
    y += layout.rowHeight + 4;
  }
  const words = writeLines(sheet, [summary], y, "fig-small fig-soft");
  return sheet.finish(words.bottom + 6, familyPatterns(sheet.draw, sheet.id), [...content, ...words.marks]);
}

function describe(budget: Budget, shown: readonly Contribution[], sentence: string, writer: UnitWriter): string {
  const decimals = decimalsOfBudget(budget, writer);
  const largest = [...shown].sort((a, b) => Math.abs(b.amount) - Math.abs(a.amount)).slice(0, 3);
  if (largest.length === 0) return `The result is ${sentence}.`;
  const named = largest.map(({ source, amount }) => `${source.label} ${writer.signed(amount, decimals)}${writer.suffix}`).join("; ");
  return `Signed bars by source, grouped by family. Largest: ${named}. ${capitalise(sentence)}.`;
}

function rootSum(contributions: readonly Contribution[]): number {
  return Math.hypot(...contributions.map(({ amount }) => amount));
}
