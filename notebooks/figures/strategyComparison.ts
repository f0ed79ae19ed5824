import type { Outcome } from "../../lib/base/outcome.ts";
import type { SetupEvaluation } from "../../lib/decision/setupEvaluation.ts";
import type { View } from "../../lib/tolerance/deviations.ts";
import { type ComparisonCell, type ComparisonColumn, comparisonOf } from "./comparison/comparisonOf.ts";
import { chanceInWords, drawCell, drawChanceOfAll } from "./comparison/drawCell.ts";
import {
  cellHeight,
  type Grid,
  gridEnd,
  heading,
  headingHeight,
  leastColumn,
  mostColumn,
  mostShare,
  rowLine,
  rowName,
  scaleEnd,
  xOf,
} from "./comparison/grid.ts";
import type { DisplayUnit } from "./displayUnit.ts";
import { type FigureEnvironment, type FigureOptions, openSheet } from "./figure.ts";
import { outcomeInWords } from "./outcomeInWords.ts";
import { outsidePattern } from "./outsidePattern.ts";
import { pathOf } from "./svgBuilder.ts";
import { textWidth } from "./textWidth.ts";
import { writeLines } from "./writeLines.ts";

export interface StrategyComparisonOptions extends FigureOptions {
  readonly view: View;
  readonly unit: DisplayUnit;
}

/**
 * Every strategy against every characteristic, the strategy to be preferred
 * first: a bar for the share of the tolerance that the root sum square uses, a
 * tick for the deviation at best estimate, the chance of being met; below, the
 * chance that all are met. What cannot be computed is struck out and says why.
 *
 * Grows wider than `width` when there are more strategies than fit: put it in a
 * frame that scrolls.
 */
export function strategyComparison(
  evaluation: SetupEvaluation,
  options: StrategyComparisonOptions,
  environment: FigureEnvironment = {},
): SVGSVGElement {
  const { columns, rows } = comparisonOf(evaluation, options.view);
  const wanted = options.width ?? 520;
  const nameRoom = Math.min(wanted * 0.3, Math.max(textWidth("chance of all"), ...rows.map((name) => textWidth(name))) + 10);
  const columnRoom = Math.max(leastColumn, Math.min(mostColumn, (wanted - nameRoom - 2) / Math.max(1, columns.length)));
  const width = Math.max(wanted, nameRoom + columns.length * columnRoom + 2);
  const title = `Strategies side by side, ${viewInWords(options.view)}`;
  const sheet = openSheet(
    { ...options, width, kind: "comparison", subject: options.view, title, description: describe(columns, evaluation.ranking) },
    environment,
  );
  const grid: Grid = {
    sheet,
    unit: options.unit,
    nameRoom,
    columnRoom,
    bar: columnRoom - 14,
    most: scaleEnd(columns),
    chosen: evaluation.setup.chosen,
  };
  if (columns.length === 0 || rows.length === 0) {
    const missing = columns.length === 0 ? "There is no strategy yet." : "The drawing demands nothing yet: add a characteristic.";
    return sheet.finish(26, [], [sheet.draw("text", { class: "fig-soft", x: 2, y: 17 }, missing)]);
  }

  const content: SVGElement[] = columns.flatMap((column, i) => heading(column, i, grid));
  let y = headingHeight;
  for (const [row, name] of rows.entries()) {
    content.push(rowLine(y, grid), rowName(name, y, grid));
    for (const [i, column] of columns.entries()) {
      const cell = column.cells[row] as Outcome<ComparisonCell>;
      content.push(...drawCell(cell, `${name}, ${column.id}`, column.bottleneck === name, xOf(i, grid), y, grid));
    }
    y += cellHeight;
  }
  content.push(sheet.draw("path", { class: "fig-axis", d: pathOf("M", 0, y, "H", gridEnd(columns, grid)) }));
  content.push(sheet.draw("text", { class: "fig-strong", x: 2, y: y + 18 }, "chance of all"));
  for (const [i, column] of columns.entries()) content.push(...drawChanceOfAll(column, xOf(i, grid), y, grid));
  y += 34;
  const words = writeLines(sheet, notes(columns, grid), y, "fig-small fig-soft", Math.min(width, wanted) - 4);
  return sheet.finish(words.bottom + 6, [outsidePattern(sheet.draw, sheet.id)], [...content, ...words.marks]);
}

function viewInWords(view: View): string {
  return view === "thisPart" ? "this part" : "the batch";
}

/** Words below the figure: how to read it, and why columns are struck out. */
function notes(columns: readonly ComparisonColumn[], { most }: Grid): string[] {
  const reasons = columns.flatMap(({ id, cells, reason }) =>
    reason !== undefined
      ? [`${id}: ${reason}.`]
      : cells.flatMap((cell) => (cell.ok ? [] : [`${id}: ${outcomeInWords(cell.problems)}.`])).slice(0, 1),
  );
  const shown = reasons.slice(0, 4);
  return [
    `Bars: share of the tolerance that the root sum square uses${most >= mostShare ? ", cut off at 200 %" : ""}; ▴ deviation at best estimate; below, the chance of being met; ◂ the tightest.`,
    ...shown,
    ...(reasons.length > shown.length ? [`${reasons.length - shown.length} more in the table.`] : []),
  ];
}

function describe(columns: readonly ComparisonColumn[], ranking: readonly string[]): string {
  const told = columns.map(({ id, chanceOfAll: together }) => `${id} ${together.ok ? chanceInWords(together.value) : "not known"}`);
  const order = ranking.length > 1 ? " In the order in which they should be preferred." : "";
  return columns.length === 0 ? "There is no strategy yet." : `Chance that all characteristics are met: ${told.join("; ")}.${order}`;
}
