import { byFamily, type Budget, type Contribution } from "../../lib/uncertainty/budget.ts";
import { families, type Family } from "../../lib/uncertainty/source.ts";
import { budgetSummary } from "./budgetSummary.ts";
import { type DisplayUnit, type UnitWriter, writerOf } from "./displayUnit.ts";
import { familyClass, familyFill, familyPatterns } from "./familyPatterns.ts";
import { type FigureEnvironment, type FigureOptions, openSheet, type Sheet } from "./figure.ts";
import { formatShare } from "./formatChance.ts";
import { pathOf } from "./svgBuilder.ts";
import { fitText, smallSize, textWidth, wrapText } from "./textWidth.ts";

export interface BudgetBarsOptions extends FigureOptions {
  /** What the budget is of, for example `zero X of corner on C`. */
  readonly title: string;
  readonly unit: DisplayUnit;
}

/**
 * Where the doubt of a result comes from: a signed bar by source, what one
 * standard uncertainty of it does. Families keep their fixed order and within one
 * the larger amount comes first; the smallest sources that make less than 1 % of
 * the variance together, and what is beyond twenty-four rows, are one row "n more".
 */
export function budgetBars(budget: Budget, options: BudgetBarsOptions, environment: FigureEnvironment = {}): SVGSVGElement {
  const writer = writerOf(options.unit);
  const summary = budgetSummary(budget, writer);
  const { shown, rest } = split(budget);
  const title = `Where the doubt in ${options.title} comes from`;
  const sheet = openSheet({ ...options, kind: "budget", subject: options.title, title, description: describe(budget, shown, summary, writer) }, environment);
  const layout = layoutOf(budget, shown, rest, sheet, writer);

  const content: SVGElement[] = [];
  let y = 4;
  for (const family of byFamily(budget)) {
    const rows = shown.filter(({ source }) => source.family === family.family);
    if (rows.length === 0) continue;
    content.push(...familyHeading(family, y, layout));
    y += headingHeight;
    for (const row of rows) {
      content.push(bar(row.source.label, row.amount, layout.writer.signed(row.amount, layout.decimals), y, layout, row.source.family));
      y += layout.rowHeight;
    }
    y += 4;
  }
  if (rest.length > 0) {
    const together = rootSum(rest);
    const label = `${rest.length} more, ${formatShare((together / budget.standardUncertainty) ** 2)} of the variance`;
    content.push(bar(label, together, writer.fixed(together, layout.decimals), y, layout));
    y += layout.rowHeight + 4;
  }
  if (shown.length > 0) {
    content.push(bar("together, root sum square", budget.standardUncertainty, writer.fixed(budget.standardUncertainty, layout.decimals), y, layout));
    if (layout.beside) content.unshift(sheet.draw("path", { class: "fig-axis", d: pathOf("M", layout.zero, 2, "V", y + layout.rowHeight) }));
    y += layout.rowHeight + 4;
  }
  for (const line of wrapText(summary, sheet.width - 4, smallSize)) {
    y += 15;
    content.push(sheet.draw("text", { class: "fig-small fig-soft", x: 2, y }, line));
  }
  return sheet.finish(y + 6, familyPatterns(sheet.draw, sheet.id), content);
}

interface Layout {
  readonly sheet: Sheet;
  readonly writer: UnitWriter;
  readonly decimals: number;
  /** Labels stand in a column beside the bars, or above them. */
  readonly beside: boolean;
  readonly labelRoom: number;
  readonly amountRoom: number;
  readonly rowHeight: number;
  /** x of nothing, and pixels per unit. */
  readonly zero: number;
  readonly scale: number;
}

const headingHeight = 19;
const barHeight = 12;
const narrow = 430;
const mostRows = 24;
/** Share of the variance that the merged rows stay below. */
const mergedShare = 0.01;

function layoutOf(budget: Budget, shown: readonly Contribution[], rest: readonly Contribution[], sheet: Sheet, writer: UnitWriter): Layout {
  const { width } = sheet;
  const decimals = decimalsOf(budget, writer);
  const beside = width >= narrow;
  const amounts = shown.map(({ amount }) => writer.signed(amount, decimals));
  const amountRoom = Math.max(...[...amounts, writer.fixed(budget.standardUncertainty, decimals)].map((text) => textWidth(text))) + 6;
  const labels = [...shown.map(({ source }) => source.label), "together, root sum square", ...(rest.length > 0 ? ["00 more, 0.00 % of the variance"] : [])];
  const labelRoom = beside ? Math.min(width * 0.45, Math.max(...labels.map((label) => textWidth(label))) + 22) : width - amountRoom - 12;
  const left = beside ? labelRoom : 14;
  const right = beside ? width - amountRoom - 4 : width - 4;
  const lowest = Math.min(0, ...shown.map(({ amount }) => amount));
  const highest = Math.max(budget.standardUncertainty, ...shown.map(({ amount }) => amount));
  const scale = highest > lowest ? (right - left) / (highest - lowest) : 0;
  return { sheet, writer, decimals, beside, labelRoom, amountRoom, rowHeight: beside ? 19 : 32, zero: left - lowest * scale, scale };
}

/** Largest first into the rows that are shown, and the tail that is merged. */
function split({ contributions: all, standardUncertainty }: Budget): { shown: readonly Contribution[]; rest: readonly Contribution[] } {
  // A source that is exactly known does nothing.
  const contributions = all.filter(({ amount }) => amount !== 0);
  let count = contributions.length;
  let merged = 0;
  const limit = mergedShare * standardUncertainty ** 2;
  for (; count > 1; count--) {
    merged += (contributions[count - 1] as Contribution).amount ** 2;
    if (!(merged < limit) && count <= mostRows) break;
  }
  // One source alone is told by its name.
  if (contributions.length - count < 2 && contributions.length <= mostRows) count = contributions.length;
  const shown = contributions.slice(0, count);
  return {
    shown: [...shown].sort((a, b) => families.indexOf(a.source.family) - families.indexOf(b.source.family) || Math.abs(b.amount) - Math.abs(a.amount)),
    rest: contributions.slice(count),
  };
}

function familyHeading({ family, standardUncertainty }: { family: Family; standardUncertainty: number }, y: number, layout: Layout): SVGElement[] {
  const { sheet, writer, decimals } = layout;
  const { draw, id, width } = sheet;
  return [
    draw("rect", { class: `fig-bar ${familyClass(family)}`, fill: familyFill(id, family), x: 2.5, y: y + 4.5, width: 8, height: 8 }),
    draw("text", { class: "fig-small fig-soft", x: 16, y: y + 13 }, family),
    draw("text", { class: "fig-small fig-soft fig-end", x: width - 4, y: y + 13 }, `u ${writer.fixed(standardUncertainty, decimals)}`),
  ];
}

/** One row: label, bar from nothing to the amount, amount in figures. Without a family the bar is an outline: a root sum square has no sign. */
function bar(label: string, amount: number, figures: string, y: number, layout: Layout, family?: Family): SVGElement {
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

/** Two digits of the combined uncertainty, and of the largest amount where that is a decade smaller. */
function decimalsOf({ standardUncertainty, contributions }: Budget, writer: UnitWriter): number {
  const largest = Math.max(0, ...contributions.map(({ amount }) => Math.abs(amount)));
  return Math.max(writer.withUncertainty(0, standardUncertainty).decimals, writer.withUncertainty(0, largest).decimals);
}

function describe(budget: Budget, shown: readonly Contribution[], sentence: string, writer: UnitWriter): string {
  const decimals = decimalsOf(budget, writer);
  const largest = [...shown].sort((a, b) => Math.abs(b.amount) - Math.abs(a.amount)).slice(0, 3);
  if (largest.length === 0) return `The result is ${sentence}.`;
  const named = largest.map(({ source, amount }) => `${source.label} ${writer.signed(amount, decimals)}${writer.suffix}`).join("; ");
  return `Signed bars by source, grouped by family. Largest: ${named}. ${sentence.charAt(0).toUpperCase()}${sentence.slice(1)}.`;
}

function rootSum(contributions: readonly Contribution[]): number {
  return Math.hypot(...contributions.map(({ amount }) => amount));
}
