import type { Outcome } from "../../lib/base/outcome.ts";
import type { SetupEvaluation } from "../../lib/decision/setupEvaluation.ts";
import type { SampledChance } from "../../lib/tolerance/chanceOfAll.ts";
import type { View } from "../../lib/tolerance/deviations.ts";
import type { Stack } from "../../lib/tolerance/stack.ts";
import { comparisonOf, type ComparisonColumn } from "./comparisonOf.ts";
import { type FigureEnvironment, type FigureOptions, openSheet, type Sheet } from "./figure.ts";
import { formatMet, formatShare } from "./formatChance.ts";
import { outcomeInWords } from "./outcomeInWords.ts";
import { pathOf } from "./svgBuilder.ts";
import { fitText, smallSize, textWidth, wrapText } from "./textWidth.ts";
import { type DisplayUnit, type UnitWriter, writerOf } from "./displayUnit.ts";

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
export function strategyComparison(evaluation: SetupEvaluation, options: StrategyComparisonOptions, environment: FigureEnvironment = {}): SVGSVGElement {
  const { columns, characteristics } = comparisonOf(evaluation, options.view);
  const wanted = options.width ?? 520;
  const nameRoom = Math.min(wanted * 0.3, Math.max(textWidth("chance of all"), ...characteristics.map((name) => textWidth(name))) + 10);
  const columnRoom = Math.max(leastColumn, Math.min(mostColumn, (wanted - nameRoom - 2) / Math.max(1, columns.length)));
  const width = Math.max(wanted, nameRoom + columns.length * columnRoom + 2);
  const title = `Strategies side by side, ${viewInWords(options.view)}`;
  const sheet = openSheet({ ...options, width, kind: "comparison", subject: options.view, title, description: describe(columns, evaluation.ranking) }, environment);
  const grid: Grid = { sheet, writer: writerOf(options.unit), nameRoom, columnRoom, bar: columnRoom - 14, most: scaleEnd(columns), chosen: evaluation.setup.chosen };
  if (columns.length === 0 || characteristics.length === 0) {
    const missing = columns.length === 0 ? "There is no strategy yet." : "The drawing demands nothing yet: add a characteristic.";
    return sheet.finish(26, [], [sheet.draw("text", { class: "fig-soft", x: 2, y: 17 }, missing)]);
  }

  const content: SVGElement[] = columns.flatMap((column, i) => heading(column, i, grid));
  let y = headingHeight;
  characteristics.forEach((name, row) => {
    content.push(rowLine(y, grid), rowName(name, y, grid));
    columns.forEach((column, i) => content.push(...cell(column.stacks[row] as Outcome<Stack>, `${name}, ${column.id}`, column.bottleneck === name, xOf(i, grid), y, grid)));
    y += cellHeight;
  });
  content.push(sheet.draw("path", { class: "fig-axis", d: pathOf("M", 0, y, "H", gridEnd(columns, grid)) }));
  content.push(sheet.draw("text", { class: "fig-strong", x: 2, y: y + 18 }, "chance of all"));
  columns.forEach((column, i) => content.push(...chanceOfAll(column, xOf(i, grid), y, grid)));
  y += 34;
  for (const line of notes(columns, grid).flatMap((note) => wrapText(note, Math.min(width, wanted) - 4, smallSize))) {
    y += 15;
    content.push(sheet.draw("text", { class: "fig-small fig-soft", x: 2, y }, line));
  }
  return sheet.finish(y + 6, [hatch(sheet)], content);
}

interface Grid {
  readonly sheet: Sheet;
  readonly writer: UnitWriter;
  readonly nameRoom: number;
  readonly columnRoom: number;
  /** Length of the track of a bar, pixels, and the share of the tolerance that it stands for. */
  readonly bar: number;
  readonly most: number;
  readonly chosen: string;
}

/** Holds the longest chance, `> 99.99 %` in bold. */
const leastColumn = 82;
const mostColumn = 150;
const headingHeight = 52;
const cellHeight = 36;
/** Bars of more than twice the tolerance end in a break. */
const mostShare = 2;

function viewInWords(view: View): string {
  return view === "thisPart" ? "this part" : "the batch";
}

function scaleEnd(columns: readonly ComparisonColumn[]): number {
  const shares = columns.flatMap(({ stacks }) => stacks.flatMap((stack) => (stack.ok ? [stack.value.shares.rootSumSquare, stack.value.shares.deviation] : [])));
  return Math.min(mostShare, Math.max(1.2, ...shares));
}

function xOf(column: number, { nameRoom, columnRoom }: Grid): number {
  return nameRoom + column * columnRoom + 8;
}

function gridEnd(columns: readonly ComparisonColumn[], { nameRoom, columnRoom }: Grid): number {
  return nameRoom + columns.length * columnRoom;
}

function hatch({ draw, id }: Sheet): SVGElement {
  return draw(
    "pattern",
    { id: `${id}-over`, class: "fig-bad", width: 5, height: 5, patternUnits: "userSpaceOnUse" },
    draw("rect", { class: "fig-wash", width: 5, height: 5 }),
    draw("path", { class: "fig-grain", d: "M -1 4 L 1 6 M 0 0 L 5 5 M 4 -1 L 6 1" }),
  );
}

function heading({ id, rank }: ComparisonColumn, column: number, grid: Grid): SVGElement[] {
  const { sheet, bar, most, chosen, columnRoom } = grid;
  const { draw } = sheet;
  const x = xOf(column, grid);
  const lines = wrapText(id, columnRoom - 10);
  const shown = lines.length > 2 ? [lines[0] as string, fitText(lines.slice(1).join(" "), columnRoom - 10)] : lines;
  const limit = x + bar / most;
  return [
    draw("g", {}, draw("title", {}, `${rank}. ${id}${id === chosen ? ", chosen" : ""}`), ...shown.map((line, i) => draw("text", { class: id === chosen ? "fig-strong" : "fig-name", x, y: 12 + i * 14 + (shown.length === 1 ? 14 : 0) }, line))),
    ...(id === chosen ? [draw("path", { class: "fig-chosen", d: pathOf("M", x, 31.5, "h", bar) })] : []),
    draw("text", { class: "fig-small fig-soft", x, y: 45 }, "0"),
    draw("text", { class: "fig-small fig-soft fig-middle", x: limit, y: 45 }, "100 %"),
  ];
}

function rowLine(y: number, { sheet: { draw, width } }: Grid): SVGElement {
  return draw("path", { class: "fig-hair", d: pathOf("M", 0, y, "H", width) });
}

function rowName(name: string, y: number, { sheet: { draw }, nameRoom }: Grid): SVGElement {
  const shown = fitText(name, nameRoom - 6);
  return draw("text", { x: 2, y: y + 15 }, shown, ...(shown === name ? [] : [draw("title", {}, name)]));
}

function cell(stack: Outcome<Stack>, name: string, tightest: boolean, x: number, y: number, grid: Grid): SVGElement[] {
  const { sheet, bar, most } = grid;
  const { draw, id } = sheet;
  if (!stack.ok) return struckOut(`${name}: cannot be computed: ${outcomeInWords(stack.problems)}`, x, y, grid);
  const { shares, chance, deviation, kind } = stack.value;
  const { writer } = grid;
  const decimals = writer.withUncertainty(0, (stack.value.limits.upper - stack.value.limits.lower) / 100 ).decimals;
  const off = `${kind === "position" ? `⌀ ${writer.fixed(deviation, decimals)}` : writer.signed(deviation, decimals)}${writer.suffix}`;
  const at = (share: number) => x + (Math.min(share, most) * bar) / most;
  const words = `${name}: uses ${formatShare(shares.rootSumSquare)} of the tolerance (root sum square; worst case ${formatShare(shares.worstCase)}), deviation ${off}, ${formatShare(shares.deviation)}; met ${formatMet(chance)}`;
  const over = shares.rootSumSquare > 1;
  return [
    draw(
      "g",
      {},
      draw("title", {}, words),
      draw("rect", { class: "fig-hit", x: x - 4, y: y + 1, width: bar + 8, height: cellHeight - 2 }),
      draw("path", { class: "fig-track", d: pathOf("M", x, y + 15.5, "H", x + bar) }),
      draw("rect", { class: "fig-share", x, y: y + 7, width: Math.max(0.75, at(Math.min(1, shares.rootSumSquare)) - x), height: 8 }),
      ...(over ? [draw("rect", { class: "fig-outside fig-bad", fill: `url(#${id}-over)`, x: at(1), y: y + 7, width: at(shares.rootSumSquare) - at(1), height: 8 })] : []),
      ...(shares.rootSumSquare > most ? [draw("path", { class: "fig-break", d: pathOf("M", at(most) - 2, y + 18, "l", 2, -5, "l", -2, -3, "l", 2, -6) })] : []),
      draw("path", { class: "fig-estimate", d: pathOf("M", at(shares.deviation), y + 15, "l", -3, 5, "h", 6, "Z") }),
      draw("path", { class: "fig-limit", d: pathOf("M", at(1), y + 4, "V", y + 18) }),
      draw("text", { class: over ? "fig-small fig-bad" : "fig-small", x, y: y + 31 }, fitText(formatMet(chance), bar, smallSize)),
      ...(tightest ? [draw("text", { class: "fig-small fig-soft fig-end", x: x + bar, y: y + 31 }, bar > 96 ? "tightest" : "◂")] : []),
    ),
  ];
}

function struckOut(words: string, x: number, y: number, { sheet: { draw }, bar }: Grid): SVGElement[] {
  return [
    draw(
      "g",
      {},
      draw("title", {}, words),
      draw("rect", { class: "fig-hit", x: x - 4, y: y + 1, width: bar + 8, height: cellHeight - 2 }),
      draw("path", { class: "fig-strike", d: pathOf("M", x, y + 15.5, "h", bar, "M", x, y + 15.5, "l", bar, -8, "M", x, y + 7.5, "l", bar, 8, "M", x, y + 7.5, "h", bar) }),
      draw("text", { class: "fig-small fig-soft", x, y: y + 31 }, "not known"),
    ),
  ];
}

function chanceOfAll({ id, stacks, chanceOfAll: together }: ComparisonColumn, x: number, y: number, grid: Grid): SVGElement[] {
  const { draw } = grid.sheet;
  if (!together.ok) return struckOut(`chance of all, ${id}: cannot be computed: ${outcomeInWords(together.problems)}`, x, y, grid);
  const { chance, standardError } = together.value;
  const over = stacks.some((stack) => stack.ok && stack.value.shares.rootSumSquare > 1);
  return [
    draw("g", {}, draw("title", {}, `chance of all, ${id}: ${chanceInWords(together.value)}`), draw("text", { class: over ? "fig-strong fig-bad" : "fig-strong", x, y: y + 18 }, formatMet(chance))),
    ...(standardError >= leastError ? [draw("text", { class: "fig-small fig-soft", x, y: y + 32 }, `± ${errorInPercent(standardError)}`)] : []),
  ];
}

/** Standard errors of the trials below this are not written under a chance. */
const leastError = 5e-5;

function errorInPercent(error: number): string {
  return `${Number((error * 100).toPrecision(error < 0.01 ? 1 : 2))} %`;
}

function chanceInWords({ chance, standardError, trials }: SampledChance): string {
  return `${formatMet(chance)}${standardError > 0 ? `, standard error ${errorInPercent(standardError)} of ${trials} trials` : ""}`;
}

/** Words below the figure: how to read it, and why columns are struck out. */
function notes(columns: readonly ComparisonColumn[], { most }: Grid): string[] {
  const reasons = columns.flatMap(({ id, stacks, reason }) => (reason !== undefined ? [`${id}: ${reason}.`] : stacks.flatMap((stack) => (stack.ok ? [] : [`${id}: ${outcomeInWords(stack.problems)}.`])).slice(0, 1)));
  const shown = reasons.slice(0, 4);
  return [
    `Bars: share of the tolerance that the root sum square uses${most >= mostShare ? ", cut off at 200 %" : ""}; ▴ deviation at best estimate; below, the chance of being met.`,
    ...shown,
    ...(reasons.length > shown.length ? [`${reasons.length - shown.length} more in the table.`] : []),
  ];
}

function describe(columns: readonly ComparisonColumn[], ranking: readonly string[]): string {
  const told = columns.map(({ id, chanceOfAll: together }) => `${id} ${together.ok ? chanceInWords(together.value) : "not known"}`);
  const order = ranking.length > 1 ? " In the order in which they should be preferred." : "";
  return columns.length === 0 ? "There is no strategy yet." : `Chance that all characteristics are met: ${told.join("; ")}.${order}`;
}
