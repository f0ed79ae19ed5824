import type { Outcome } from "../../lib/base/outcome.ts";
import type { SetupEvaluation } from "../../lib/decision/setupEvaluation.ts";
import type { View } from "../../lib/tolerance/deviations.ts";
import { type Comparison, type ComparisonCell, type ComparisonColumn, comparisonOf } from "./comparison/comparisonOf.ts";
import { chanceInWords, drawCell, drawChanceOfAll } from "./comparison/drawCell.ts";
import {
  cellHeight,
  type Grid,
  gridEnd,
  heading,
  headOf,
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
import { type Piece, stretches } from "./pieces.ts";
import { pathOf } from "./svgBuilder.ts";
import { textWidth } from "./textWidth.ts";
import { writeLines } from "./writeLines.ts";

export interface StrategyComparisonOptions extends FigureOptions {
  readonly view: View;
  readonly unit: DisplayUnit;
  /** Only these rows and columns, from one to before the other; all unless given. */
  readonly piece?: Piece;
}

/**
 * Every strategy against every characteristic, the strategy to be preferred
 * first: its chance that all are met and the number of its touches; by characteristic a bar for the share of the tolerance that the root sum square
 * uses, a tick for the deviation at best estimate, the chance of being met. What cannot be computed is struck out and says why.
 *
 * Grows wider than `width` when there are more strategies than fit: put it in a
 * frame that scrolls. Heads and names are groups of their own (`fig-stays-…`), so that the frame can keep them in sight.
 */
export function strategyComparison(
  evaluation: SetupEvaluation,
  options: StrategyComparisonOptions,
  environment: FigureEnvironment = {},
): SVGSVGElement {
  const comparison = comparisonOf(evaluation, options.view);
  const piece = options.piece ?? { rows: [0, comparison.rows.length], columns: [0, comparison.columns.length] };
  const columns = comparison.columns.slice(...piece.columns);
  const rows = comparison.rows.slice(...piece.rows);
  const wanted = options.width ?? 520;
  const nameRoom = roomForNames(comparison, wanted);
  const columnRoom = Math.max(leastColumn, Math.min(mostColumn, (wanted - nameRoom - 2) / Math.max(1, columns.length)));
  const width = Math.max(wanted, nameRoom + columns.length * columnRoom + 2);
  const title = `Strategies side by side, ${viewInWords(options.view)}`;
  const sheet = openSheet(
    { ...options, width, kind: "comparison", subject: options.view, title, description: describe(columns, evaluation.ranking.order) },
    environment,
  );
  const grid: Grid = {
    sheet,
    unit: options.unit,
    nameRoom,
    columnRoom,
    bar: columnRoom - 14,
    most: scaleEnd(comparison.columns),
    chosen: evaluation.setup.chosen,
    head: headOf(columns, columnRoom),
  };
  if (columns.length === 0 || rows.length === 0) {
    const missing = columns.length === 0 ? "There is no strategy yet." : "The drawing demands nothing yet: add a characteristic.";
    return sheet.finish(26, [], [sheet.draw("text", { class: "fig-soft", x: 2, y: 17 }, missing)]);
  }

  const { draw } = sheet;
  const { chance, height: headingHeight } = grid.head;
  const bottom = headingHeight + rows.length * cellHeight;
  const topOf = (row: number) => headingHeight + row * cellHeight;
  const cells = rows.flatMap((name, row) =>
    columns.flatMap((column, i) => {
      const cell = column.cells[piece.rows[0] + row] as Outcome<ComparisonCell>;
      return drawCell(cell, `${name}, ${column.id}`, column.bottleneck === name, xOf(i, grid), topOf(row), grid);
    }),
  );
  const lines = rows.map((_, row) => rowLine(topOf(row), grid));
  const ground = (to: { width: number; height: number }, y = 0) => draw("rect", { class: "fig-ground", x: 0, y, ...to });
  const names = draw(
    "g",
    { class: "fig-stays-left" },
    ground({ width: nameRoom, height: bottom - headingHeight }, headingHeight),
    ...rows.flatMap((name, row) => [rowLine(topOf(row), grid, nameRoom), rowName(name, topOf(row), grid)]),
  );
  const heads = draw(
    "g",
    { class: "fig-stays-top" },
    ground({ width, height: headingHeight }),
    ...columns.flatMap((column, i) => [...heading(column, i, grid), ...drawChanceOfAll(column, xOf(i, grid), chance, grid)]),
    rowLine(headingHeight, grid),
  );
  const corner = draw(
    "g",
    { class: "fig-stays" },
    ground({ width: nameRoom, height: headingHeight }),
    draw("text", { class: "fig-strong", x: 2, y: chance + 18 }, "chance of all"),
    rowLine(headingHeight, grid, nameRoom),
  );
  const end = draw("path", { class: "fig-axis", d: pathOf("M", 0, bottom, "H", gridEnd(columns, grid)) });
  const words = writeLines(sheet, notes(columns, grid), bottom + 4, "fig-small fig-soft", Math.min(width, wanted) - 4);
  return sheet.finish(words.bottom + 6, [outsidePattern(draw, sheet.id)], [...lines, ...cells, ...words.marks, names, end, heads, corner]);
}

/** The same in pieces that a sheet of paper holds, each with its heads and names. */
export function comparisonPieces(
  evaluation: SetupEvaluation,
  options: Omit<StrategyComparisonOptions, "piece" | "width">,
  paper: { readonly width: number; readonly height: number },
  environment: FigureEnvironment = {},
): SVGSVGElement[] {
  const comparison = comparisonOf(evaluation, options.view);
  const [rowsOfAll, columnsOfAll] = [comparison.rows.length, comparison.columns.length];
  const columnsEach = Math.max(1, Math.floor((paper.width - roomForNames(comparison, paper.width) - 2) / leastColumn));
  const rowsEach = Math.max(1, Math.floor((paper.height - headOf(comparison.columns, leastColumn).height - roomForNotes) / cellHeight));
  return stretches(columnsOfAll, columnsEach).flatMap((columns, c) =>
    stretches(rowsOfAll, rowsEach).map((rows, r) =>
      strategyComparison(
        evaluation,
        { ...options, width: paper.width, id: `${options.id ?? "comparison"}-piece-${c + 1}-${r + 1}`, piece: { rows, columns } },
        environment,
      ),
    ),
  );
}

/** Sentences below a piece, pixels. */
const roomForNotes = 90;

function roomForNames({ rows }: Comparison, width: number): number {
  return Math.min(width * 0.3, Math.max(textWidth("chance of all"), ...rows.map((name) => textWidth(name))) + 10);
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
