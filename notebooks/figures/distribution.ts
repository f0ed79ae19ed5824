import { ticks } from "d3";
import { type OutputTally, tallyCells, tallyReach } from "../../lib/uncertainty/trials/trialTally.ts";
import { decimalsOfStep } from "./decimalsOfStep.ts";
import { type DisplayUnit, type UnitWriter, writerOf } from "./displayUnit.ts";
import { distributionInWords } from "./distributionInWords.ts";
import type { DistributionView } from "./distributionView.ts";
import { type FigureEnvironment, type FigureOptions, openSheet, type Sheet } from "./figure.ts";
import { linearScale } from "./linearScale.ts";
import type { DensityPoint } from "./stack/densityCurve.ts";
import { pathOf } from "./svgBuilder.ts";
import { smallSize, textWidth } from "./textWidth.ts";
import { writeLines } from "./writeLines.ts";

export interface DistributionOptions extends FigureOptions {
  /** Which result, by which strategy, and which question. */
  readonly title: string;
  readonly unit: DisplayUnit;
}

const side = 14;
const curveTop = 22;
const axisY = 150;
const firstRow = axisY + 34;
const rowHeight = 18;
/** A limit that would more than double what is drawn of the axis is told in words only. */
const roomForLimits = 1;
/** Cells of a tally that make one column of its histogram: 256 columns over 20 standard deviations. */
const cellsPerColumn = 16;

/**
 * Distribution of a result: its density to first order broken, with the bend of the model whole, trials as a histogram; limits of the
 * tolerance, the best estimate, and the coverage intervals as dimension lines beneath.
 */
export function distribution(view: DistributionView, options: DistributionOptions, environment: FigureEnvironment = {}): SVGSVGElement {
  const writer = writerOf(options.unit);
  const words = distributionInWords(view, writer);
  const sheet = openSheet(
    {
      ...options,
      kind: "distribution",
      subject: options.title,
      title: `Distribution: ${options.title}`,
      description: words.join(" "),
    },
    environment,
  );
  const scene = sceneOf(view, sheet, writer);
  const spans = intervals(scene);
  const key = keyOf(scene, firstRow + spans.rows * rowHeight + 4);
  const notes = writeLines(sheet, words, key.bottom + 6, "fig-small fig-soft");
  return sheet.finish(
    notes.bottom + 6,
    [],
    [...curves(scene), ...limitLines(scene), ...axis(scene), ...spans.marks, ...key.marks, ...notes.marks],
  );
}

interface Scene {
  readonly view: DistributionView;
  readonly sheet: Sheet;
  readonly writer: UnitWriter;
  readonly from: number;
  readonly to: number;
  readonly x: (value: number) => number;
  /** Limits that lie on what is drawn. */
  readonly limits: readonly number[];
}

function sceneOf(view: DistributionView, sheet: Sheet, writer: UnitWriter): Scene {
  const { firstOrder, wholeModel, corrected } = view;
  const { curve, value, limits } = firstOrder;
  const whole = wholeModel === undefined || wholeModel.isTooCurved ? [] : wholeModel.symmetric;
  const places = [...curve, ...corrected].map(({ at }) => at);
  const wanted = [value, ...places, ...whole];
  const [least, most] = [Math.min(...wanted), Math.max(...wanted)];
  const span = most - least > 0 ? most - least : Math.abs(value) * 1e-6 || 1e-6;
  // A diameter has no lower limit.
  const stated = limits === undefined ? [] : firstOrder.expanded === undefined ? [limits.upper] : [limits.lower, limits.upper];
  const near = stated.filter((limit) => limit >= least - roomForLimits * span && limit <= most + roomForLimits * span);
  const [lower, upper] = [Math.min(least, ...near), Math.max(most, ...near)];
  const margin = 0.03 * Math.max(upper - lower, span);
  const [from, to] = [lower - margin, upper + margin];
  return { view, sheet, writer, from, to, x: linearScale([from, to], [side, sheet.width - side]), limits: near };
}

interface Column {
  readonly from: number;
  readonly to: number;
  /** Share of all trials with a value, per unit. */
  readonly density: number;
}

function columnsOf({ counts, centre, scale, below, above }: OutputTally, from: number, to: number): Column[] {
  const count = counts.reduce((total, each) => total + each, below + above);
  if (count === 0) return [];
  const width = (cellsPerColumn * 2 * tallyReach * scale) / tallyCells;
  const first = centre - tallyReach * scale;
  return Array.from({ length: tallyCells / cellsPerColumn }, (_, k) => {
    const inColumn = counts.subarray(k * cellsPerColumn, (k + 1) * cellsPerColumn).reduce((total, each) => total + each, 0);
    return { from: first + k * width, to: first + (k + 1) * width, density: inColumn / count / width };
  }).filter((column) => column.density > 0 && column.from >= from && column.to <= to);
}

function curves({ view: { firstOrder, corrected, tally }, sheet: { draw }, from, to, x }: Scene): SVGElement[] {
  const columns = tally === undefined ? [] : columnsOf(tally, from, to);
  const highest = Math.max(0, ...[...firstOrder.curve, ...corrected, ...columns].map(({ density }) => density));
  if (!(highest > 0)) return [draw("path", { class: "fig-curve", d: pathOf("M", x(firstOrder.value), axisY, "V", curveTop) })];
  const y = (density: number) => axisY - ((axisY - curveTop) * density) / highest;
  const line = (points: readonly DensityPoint[]) =>
    points.map(({ at, density }, i) => pathOf(i === 0 ? "M" : "L", x(at), y(density))).join(" ");
  const box = (column: Column) => pathOf("M", x(column.from), axisY, "V", y(column.density), "H", x(column.to), "V", axisY, "Z");
  return [
    ...(columns.length > 0 ? [draw("path", { class: "fig-trials", d: columns.map(box).join(" ") })] : []),
    ...(corrected.length > 0 ? [draw("path", { class: "fig-curve", d: line(corrected) })] : []),
    ...(firstOrder.curve.length > 0 ? [draw("path", { class: "fig-first-order", d: line(firstOrder.curve) })] : []),
  ];
}

function limitLines({ sheet: { draw, width }, limits, writer, x }: Scene): SVGElement[] {
  return limits.flatMap((limit, i) => {
    const text = `limit ${writer.stated(limit)}${writer.suffix}`;
    const room = textWidth(text) / 2;
    // Two limits keep to their halves.
    const [low, high] = limits.length > 1 ? (i === 0 ? [room, width / 2 - room] : [width / 2 + room, width - room]) : [room, width - room];
    return [
      draw("path", { class: "fig-limit", d: pathOf("M", x(limit), 16, "V", axisY + 4) }),
      draw("text", { class: "fig-middle fig-bad", x: Math.min(high - 2, Math.max(low + 2, x(limit))), y: 11 }, text),
    ];
  });
}

function axis({ view: { firstOrder }, sheet: { draw, width }, writer, from, to, x }: Scene): SVGElement[] {
  // As many as there is room for with the digits that they need.
  const few = ticks(from * writer.factor, to * writer.factor, 3);
  const room = textWidth(writer.fixed(from, decimalsOfStep(few) + 1), smallSize) + 14;
  const shown = ticks(from * writer.factor, to * writer.factor, Math.max(2, Math.floor(width / Math.max(90, room))));
  const decimals = decimalsOfStep(shown);
  const marks = shown.map((tick) => tick / writer.factor);
  const here = x(firstOrder.value);
  return [
    draw("path", {
      class: "fig-axis",
      d: `${pathOf("M", x(from), axisY, "H", x(to))} ${marks.map((mark) => pathOf("M", x(mark), axisY, "v", 4)).join(" ")}`,
    }),
    ...marks.map((mark) => {
      const text = writer.fixed(mark, decimals);
      const half = textWidth(text, smallSize) / 2;
      return draw(
        "text",
        { class: "fig-small fig-soft fig-middle", x: Math.min(width - half, Math.max(half, x(mark))), y: axisY + 16 },
        text,
      );
    }),
    draw("path", { class: "fig-estimate", d: pathOf("M", here, axisY + 3, "l", -4, -9, "h", 8, "Z") }),
  ];
}

/** Coverage intervals as dimension lines: to first order, and of the whole model. */
function intervals({ view: { firstOrder, wholeModel }, sheet: { draw }, from, to, x }: Scene): { marks: SVGElement[]; rows: number } {
  const { value, expanded } = firstOrder;
  const spans = [
    ...(expanded === undefined
      ? []
      : [{ className: "fig-first-order", ends: [value - expanded.expandedUncertainty, value + expanded.expandedUncertainty] as const }]),
    ...(wholeModel === undefined || wholeModel.isTooCurved ? [] : [{ className: "fig-curve", ends: wholeModel.symmetric }]),
  ];
  const marks = spans.flatMap(({ className, ends: [lower, upper] }, row) => {
    const y = firstRow + row * rowHeight;
    const [left, right] = [x(Math.max(from, lower)), x(Math.min(to, upper))];
    const stops = pathOf("M", left, y - 6, "V", y + 6, "M", right, y - 6, "V", y + 6);
    return [draw("path", { class: className, d: pathOf("M", left, y, "H", right) }), draw("path", { class: "fig-thin", d: stops })];
  });
  return { marks, rows: spans.length };
}

function keyOf(
  { view: { firstOrder, corrected, tally, wholeModel }, sheet: { draw, width } }: Scene,
  top: number,
): { marks: SVGElement[]; bottom: number } {
  const entries = [
    { className: "fig-first-order", text: firstOrder.expanded === undefined ? "first order" : "first order, y ± U" },
    ...(corrected.length > 0 || wholeModel !== undefined ? [{ className: "fig-curve", text: "with the bend of the model" }] : []),
    ...(tally === undefined ? [] : [{ className: "fig-trials", text: "trials" }]),
  ];
  const marks: SVGElement[] = [];
  let left = 2;
  let y = top;
  for (const { className, text } of entries) {
    const room = textWidth(text, smallSize) + 44;
    if (left > 2 && left + room > width) {
      left = 2;
      y += 16;
    }
    marks.push(
      className === "fig-trials"
        ? draw("rect", { class: className, x: left + 6, y: y - 1, width: 10, height: 10 })
        : draw("path", { class: className, d: pathOf("M", left, y + 4, "h", 22) }),
      draw("text", { class: "fig-small fig-soft", x: left + 28, y: y + 8 }, text),
    );
    left += room;
  }
  return { marks, bottom: y + 8 };
}
