import type { Outcome } from "../../../lib/base/outcome.ts";
import type { SampledChance } from "../../../lib/tolerance/chanceOfAll.ts";
import { unitOfStack, writerOf } from "../displayUnit.ts";
import { formatMet, formatShare } from "../formatChance.ts";
import { outcomeInWords } from "../outcomeInWords.ts";
import { outsideFill } from "../outsidePattern.ts";
import { decimalsOfTolerance } from "../stackInWords.ts";
import { pathOf } from "../svgBuilder.ts";
import { fitText, smallSize } from "../textWidth.ts";
import type { ComparisonCell, ComparisonColumn } from "./comparisonOf.ts";
import { cellHeight, type Grid } from "./grid.ts";

export function drawCell(cell: Outcome<ComparisonCell>, name: string, tightest: boolean, x: number, y: number, grid: Grid): SVGElement[] {
  const { sheet, bar, most } = grid;
  const { draw, id } = sheet;
  if (!cell.ok) return struckOut(`${name}: cannot be computed: ${outcomeInWords(cell.problems)}`, x, y, grid);
  const { stack, chance, worst } = cell.value;
  const { shares, deviation, isRound } = stack;
  const writer = writerOf(unitOfStack(stack, grid.unit));
  const decimals = decimalsOfTolerance(stack.limits, writer);
  const off = `${isRound ? `⌀ ${writer.fixed(deviation, decimals)}` : writer.signed(deviation, decimals)}${writer.suffix}`;
  const at = (share: number) => x + (Math.min(share, most) * bar) / most;
  const told = worst === undefined ? name : `${name}; its worst, ${worst}`;
  const words = `${told}: uses ${formatShare(shares.rootSumSquare)} of the tolerance (root sum square; worst case ${formatShare(shares.worstCase)}), deviation ${off}, ${formatShare(shares.deviation)}; ${worst === undefined ? "" : "all of the row "}met ${formatMet(chance)}`;
  const over = shares.rootSumSquare > 1;
  return [
    draw(
      "g",
      {},
      draw("title", {}, words),
      draw("rect", { class: "fig-hit", x: x - 4, y: y + 1, width: bar + 8, height: cellHeight - 2 }),
      draw("path", { class: "fig-track", d: pathOf("M", x, y + 15.5, "H", x + bar) }),
      draw("rect", { class: "fig-share", x, y: y + 7, width: Math.max(0.75, at(Math.min(1, shares.rootSumSquare)) - x), height: 8 }),
      ...(over
        ? [
            draw("rect", {
              class: "fig-outside fig-bad",
              fill: outsideFill(id),
              x: at(1),
              y: y + 7,
              width: at(shares.rootSumSquare) - at(1),
              height: 8,
            }),
          ]
        : []),
      ...(shares.rootSumSquare > most
        ? [draw("path", { class: "fig-break", d: pathOf("M", at(most) - 2, y + 18, "l", 2, -5, "l", -2, -3, "l", 2, -6) })]
        : []),
      draw("path", { class: "fig-estimate", d: pathOf("M", at(shares.deviation), y + 15, "l", -3, 5, "h", 6, "Z") }),
      draw("path", { class: "fig-limit", d: pathOf("M", at(1), y + 4, "V", y + 18) }),
      draw("text", { class: over ? "fig-small fig-bad" : "fig-small", x, y: y + 31 }, fitText(formatMet(chance), bar, smallSize)),
      ...(tightest ? [draw("text", { class: "fig-small fig-soft fig-end", x: x + bar, y: y + 31 }, "◂")] : []),
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
      draw("path", {
        class: "fig-strike",
        d: pathOf("M", x, y + 15.5, "h", bar, "M", x, y + 15.5, "l", bar, -8, "M", x, y + 7.5, "l", bar, 8, "M", x, y + 7.5, "h", bar),
      }),
      draw("text", { class: "fig-small fig-soft", x, y: y + 31 }, "not known"),
    ),
  ];
}

export function drawChanceOfAll({ id, cells, chanceOfAll: together }: ComparisonColumn, x: number, y: number, grid: Grid): SVGElement[] {
  const { draw } = grid.sheet;
  if (!together.ok) return struckOut(`chance of all, ${id}: cannot be computed: ${outcomeInWords(together.problems)}`, x, y, grid);
  const { chance, standardError } = together.value;
  const over = cells.some((cell) => cell.ok && cell.value.stack.shares.rootSumSquare > 1);
  return [
    draw(
      "g",
      {},
      draw("title", {}, `chance of all, ${id}: ${chanceInWords(together.value)}`),
      draw("text", { class: over ? "fig-strong fig-bad" : "fig-strong", x, y: y + 18 }, formatMet(chance)),
    ),
    ...(standardError >= leastError
      ? [draw("text", { class: "fig-small fig-soft", x, y: y + 32 }, `± ${errorInPercent(standardError)}`)]
      : []),
  ];
}

/** Standard errors of the trials below this are not written under a chance. */
const leastError = 5e-5;

function errorInPercent(error: number): string {
  return `${Number((error * 100).toPrecision(error < 0.01 ? 1 : 2))} %`;
}

export function chanceInWords({ chance, standardError, trials }: SampledChance): string {
  return `${formatMet(chance)}${standardError > 0 ? `, standard error ${errorInPercent(standardError)} of ${trials} trials` : ""}`;
}
