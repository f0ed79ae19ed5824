import type { Family } from "../../../lib/uncertainty/source.ts";
import { familyClass, familyFill } from "../familyPatterns.ts";
import { pathOf } from "../svgBuilder.ts";
import { fitText } from "../textWidth.ts";
import { type BudgetLayout, barHeight } from "./budgetLayout.ts";

/** Name of a family, its pattern, and what its sources make together. */
export function drawFamily(
  { family, standardUncertainty }: { family: Family; standardUncertainty: number },
  y: number,
  layout: BudgetLayout,
): SVGElement[] {
  const { sheet, writer, decimals } = layout;
  const { draw, id, width } = sheet;
  return [
    draw("rect", { class: `fig-bar ${familyClass(family)}`, fill: familyFill(id, family), x: 2.5, y: y + 4.5, width: 8, height: 8 }),
    draw("text", { class: "fig-small fig-soft", x: 16, y: y + 13 }, family),
    draw("text", { class: "fig-small fig-soft fig-end", x: width - 4, y: y + 13 }, `u ${writer.fixed(standardUncertainty, decimals)}`),
  ];
}

/** One row: label, bar from nothing to the amount, amount in figures. Without a family the bar is an outline: a root sum square has no sign. */
export function drawRow(label: string, amount: number, figures: string, y: number, layout: BudgetLayout, family?: Family): SVGElement {
  const { sheet, beside, labelRoom, rowHeight, zero, scale } = layout;
  const { draw, id, width } = sheet;
  const indent = family === undefined ? 2 : 16;
  const room = labelRoom - indent - 6;
  const shown = fitText(label, room);
  const end = zero + amount * scale;
  const top = y + rowHeight - barHeight - 3.5;
  const baseline = beside ? y + rowHeight - 6 : y + 12;
  const kind = family === undefined ? "fig-outline" : `fig-bar ${familyClass(family)}`;
  return draw(
    "g",
    { class: "fig-row" },
    draw("title", {}, `${label}: ${figures}`),
    draw("text", { x: indent, y: baseline }, shown),
    draw("rect", {
      class: kind,
      fill: family === undefined ? "none" : familyFill(id, family),
      x: Math.min(zero, end),
      y: top,
      // A source that is there is seen to be there.
      width: Math.max(0.75, Math.abs(end - zero)),
      height: barHeight,
    }),
    // Labels stand where a line through all rows would run.
    ...(beside ? [] : [draw("path", { class: "fig-axis", d: pathOf("M", zero, top - 2, "v", barHeight + 4) })]),
    draw("text", { class: "fig-end", x: width - 4, y: baseline }, figures),
  );
}
