import { scaleLinear } from "d3";
import type { Range, Stack } from "../../lib/tolerance/stack.ts";
import { densityCurve } from "./densityCurve.ts";
import { formatFixed } from "../../lib/uncertainty/roundForReport.ts";
import { type DisplayUnit, type UnitWriter, writerOf } from "./displayUnit.ts";
import { familyClass, familyFill, familyPatterns } from "./familyPatterns.ts";
import { type FigureEnvironment, type FigureOptions, openSheet, type Sheet } from "./figure.ts";
import { formatShare } from "./formatChance.ts";
import { decimalsOfTolerance, stackInWords } from "./stackInWords.ts";
import { decimalsOfStep } from "./decimalsOfStep.ts";
import { pathOf } from "./svgBuilder.ts";
import { smallSize, textWidth, wrapText } from "./textWidth.ts";
import { worstCaseByFamily } from "./worstCaseByFamily.ts";

export interface ToleranceStackOptions extends FigureOptions {
  /** What is toleranced and how, for example `hole 3, position 0.10, corner on B`. */
  readonly title: string;
  readonly unit: DisplayUnit;
}

/**
 * How a characteristic uses its tolerance, on one axis: the distribution above
 * the limits with what lies outside hatched, the best estimate as a tick, the
 * root sum square as an outline and the worst case as segments by family.
 */
export function toleranceStack(stack: Stack, options: ToleranceStackOptions, environment: FigureEnvironment = {}): SVGSVGElement {
  const writer = writerOf(options.unit);
  const description = stackInWords(stack, writer).join(" ");
  const sheet = openSheet({ ...options, kind: "stack", subject: options.title, title: `How the tolerance is used: ${options.title}`, description }, environment);
  const scene = sceneOf(stack, sheet, writer);
  const definitions = [...familyPatterns(sheet.draw, sheet.id), outsidePattern(sheet)];
  const content = [...curve(scene), ...axis(scene)];

  let y = firstRow;
  content.push(...barRow("root sum square", stack.rootSumSquare, stack.shares.rootSumSquare, y, scene, outlineBar));
  y += rowHeight;
  content.push(...barRow("worst case", stack.worstCase, stack.shares.worstCase, y, scene, segmentBar));
  y += rowHeight;
  const key = familyKey(scene, y + 2);
  content.push(...key.marks);
  y = key.bottom + 4;
  const [, chance = "", ...others] = stackInWords(stack, writer);
  for (const line of wrapText(chance, sheet.width * 0.94)) {
    y += 17;
    content.push(sheet.draw("text", { class: "fig-strong", x: 2, y }, line));
  }
  for (const line of others.flatMap((sentence) => wrapText(sentence, sheet.width - 4, smallSize))) {
    y += 15;
    content.push(sheet.draw("text", { class: "fig-small fig-soft", x: 2, y }, line));
  }
  return sheet.finish(y + 6, definitions, [...limitLines(scene), ...content]);
}

interface Scene {
  readonly stack: Stack;
  readonly sheet: Sheet;
  readonly writer: UnitWriter;
  readonly x: (value: number) => number;
  /** What is drawn of the axis, in the unit of the stack. */
  readonly from: number;
  readonly to: number;
  readonly ticks: readonly number[];
}

const side = 14;
const curveTop = 24;
const axisY = 104;
const firstRow = axisY + 36;
const rowHeight = 40;
const barHeight = 14;
/** What lies farther outside than this many widths of the tolerance is cut off at a break. */
const farthest = 2;

function sceneOf(stack: Stack, sheet: Sheet, writer: UnitWriter): Scene {
  const { limits, worstCase, rootSumSquare, deviation, distribution } = stack;
  const width = limits.upper - limits.lower;
  const oneSided = stack.kind === "position";
  const wantedLower = Math.min(limits.lower, worstCase.lower, rootSumSquare.lower, deviation, oneSided ? 0 : distribution.quantile(0.001));
  const wantedUpper = Math.max(limits.upper, worstCase.upper, rootSumSquare.upper, deviation, distribution.quantile(0.999));
  const lower = oneSided ? 0 : Math.max(limits.lower - farthest * width, wantedLower);
  const upper = Math.min(limits.upper + farthest * width, wantedUpper);
  const margin = 0.04 * (upper - lower);
  const from = oneSided ? 0 : lower - margin;
  const to = upper + margin;
  // Ticks at round numbers of the shown unit.
  const scale = scaleLinear([from * writer.factor, to * writer.factor], [side, sheet.width - side]);
  return { stack, sheet, writer, from, to, x: (value) => scale(value * writer.factor), ticks: scale.ticks(Math.max(3, Math.floor(sheet.width / 90))) };
}

function outsidePattern({ draw, id }: Sheet): SVGElement {
  return draw(
    "pattern",
    { id: `${id}-outside`, class: "fig-bad", width: 5, height: 5, patternUnits: "userSpaceOnUse" },
    draw("rect", { class: "fig-wash", width: 5, height: 5 }),
    draw("path", { class: "fig-grain", d: "M -1 4 L 1 6 M 0 0 L 5 5 M 4 -1 L 6 1" }),
  );
}

function limitLines({ stack: { limits, kind }, sheet: { draw, width }, writer, x }: Scene): SVGElement[] {
  // Past the curve and past either bar, not through the words between them.
  const bars = [0, 1].map((row) => firstRow + row * rowHeight + 3);
  const stretches = (at: number) => [pathOf("M", at, 16, "V", axisY + 4), ...bars.map((top) => pathOf("M", at, top, "V", top + barHeight + 9))].join(" ");
  const line = (value: number) => draw("path", { class: "fig-limit", d: stretches(x(value)) });
  const position = kind === "position";
  const labels = position
    ? [{ at: limits.upper, text: `zone ⌀ ${writer.stated(limits.upper)}${writer.suffix}` }]
    : [
        { at: limits.lower, text: writer.statedSigned(limits.lower) },
        { at: limits.upper, text: `${writer.statedSigned(limits.upper)}${writer.suffix}` },
      ];
  const [first, last] = [labels[0] as (typeof labels)[number], labels[labels.length - 1] as (typeof labels)[number]];
  const crowded = first !== last && x(last.at) - x(first.at) < (textWidth(first.text) + textWidth(last.text)) / 2 + 8;
  return [
    ...(position ? [] : [line(limits.lower)]),
    line(limits.upper),
    ...labels.map(({ at, text }) => {
      const room = textWidth(text) / 2;
      const middle = Math.min(width - room - 2, Math.max(room + 2, x(at)));
      const shift = crowded ? (at === first.at ? -room - 2 : room + 2) : 0;
      return draw("text", { class: "fig-middle fig-bad", x: middle + shift, y: 11 }, text);
    }),
  ];
}

/** The density, and hatched what of it lies outside. */
function curve({ stack: { distribution, limits }, sheet: { draw, id }, from, to, x }: Scene): SVGElement[] {
  const points = densityCurve(distribution, from, to);
  const highest = Math.max(...points.map(({ density }) => density));
  if (points.length < 2 || !(highest > 0)) {
    const { mean } = distribution;
    return mean >= from && mean <= to ? [draw("path", { class: "fig-curve", d: pathOf("M", x(mean), axisY, "V", curveTop) })] : [];
  }
  const y = (density: number) => axisY - ((axisY - curveTop) * density) / highest;
  const area = (part: typeof points) => {
    const [first, last] = [part[0] as (typeof points)[number], part[part.length - 1] as (typeof points)[number]];
    const outline = part.flatMap(({ at, density }) => ["L", x(at), y(density)]);
    return pathOf("M", x(first.at), axisY, ...outline, "L", x(last.at), axisY, "Z");
  };
  const cut = (inside: (at: number) => boolean, limit: number) => {
    const part = points.filter(({ at }) => inside(at));
    if (part.length === 0) return [];
    const edge = { at: limit, density: Math.max(0, distribution.density(limit)) };
    const closed = Number.isFinite(edge.density) ? [...part, edge].sort((a, b) => a.at - b.at) : part;
    return [draw("path", { class: "fig-outside fig-bad", fill: `url(#${id}-outside)`, d: area(closed) })];
  };
  const line = points.map(({ at, density }, i) => pathOf(i === 0 ? "M" : "L", x(at), y(density))).join(" ");
  return [
    draw("path", { class: "fig-calm-area", d: area(points) }),
    ...cut((at) => at < limits.lower, limits.lower),
    ...cut((at) => at > limits.upper, limits.upper),
    draw("path", { class: "fig-curve", d: line }),
  ];
}

function axis({ stack: { deviation }, sheet: { draw }, writer, x, from, to, ticks }: Scene): SVGElement[] {
  const decimals = decimalsOfStep(ticks);
  const marks = ticks.map((tick) => tick / writer.factor);
  const tickPath = marks.map((mark) => pathOf("M", x(mark), axisY, "v", 4)).join(" ");
  const here = x(Math.min(to, Math.max(from, deviation)));
  return [
    draw("path", { class: "fig-axis", d: `${pathOf("M", x(from), axisY, "H", x(to))} ${tickPath}` }),
    ...marks.map((mark) => draw("text", { class: "fig-small fig-soft fig-middle", x: x(mark), y: axisY + 16 }, writer.fixed(mark, decimals))),
    // A tick that stands on the axis like a plumb bob: where the best estimate is.
    draw("path", { class: "fig-estimate", d: pathOf("M", here, axisY + 3, "l", -4, -9, "h", 8, "Z") }),
  ];
}

type DrawBar = (range: Range, y: number, scene: Scene) => SVGElement[];

/** Words above, the bar below, what of it is beyond a limit underlined. */
function barRow(name: string, range: Range, share: number, y: number, scene: Scene, drawBar: DrawBar): SVGElement[] {
  const { stack, sheet, x, from, to } = scene;
  const { draw, width } = sheet;
  const beyond: SVGElement[] = [];
  const beam = y + barHeight + 10.5;
  const { lower, upper } = stack.limits;
  if (range.upper > upper) beyond.push(draw("path", { class: "fig-beyond", d: pathOf("M", x(upper), beam, "H", x(Math.min(to, range.upper))) }));
  if (range.lower < lower) beyond.push(draw("path", { class: "fig-beyond", d: pathOf("M", x(Math.max(from, range.lower)), beam, "H", x(lower)) }));
  return [
    draw("text", { x: 2, y: y + 2 }, name, draw("tspan", { class: "fig-soft" }, `  ${rangeInWords(range, stack, scene.writer)}`)),
    draw("text", { class: share > 1 ? "fig-end fig-bad fig-strong" : "fig-end", x: width - 2, y: y + 2 }, formatShare(share)),
    ...drawBar(range, y + 7, scene),
    ...beyond,
    ...(range.upper > to ? [breakMark(x(to), y + 7, draw)] : []),
    ...(range.lower < from ? [breakMark(x(from), y + 7, draw)] : []),
  ];
}

const outlineBar: DrawBar = (range, y, { sheet: { draw }, x, from, to }) => {
  const [start, end] = [x(Math.max(from, range.lower)), x(Math.min(to, range.upper))];
  return [draw("rect", { class: "fig-outline", x: start, y, width: Math.max(0.75, end - start), height: barHeight })];
};

const segmentBar: DrawBar = (_range, y, scene) => {
  const { stack, sheet, x, from, to } = scene;
  const { draw, id } = sheet;
  const { estimate, reaches } = worstCaseByFamily(stack);
  const segment = (a: number, b: number, attributes: { class: string; fill: string }) => {
    const [lower, upper] = [Math.max(from, Math.min(a, b)), Math.min(to, Math.max(a, b))];
    return upper > lower ? [draw("rect", { ...attributes, x: x(lower), y, width: x(upper) - x(lower), height: barHeight })] : [];
  };
  const position = stack.kind === "position";
  let reached = position ? Math.max(0, estimate) : 0;
  const start = reached;
  const sides = position ? [1] : [1, -1];
  const middle = position ? 0 : stack.deviation;
  return [
    ...segment(0, start, { class: "fig-outline", fill: "none" }).slice(0, position ? 1 : 0),
    ...reaches.flatMap(({ family, reach }) => {
      const before = reached;
      reached += reach;
      const look = { class: `fig-bar ${familyClass(family)}`, fill: familyFill(id, family) };
      return sides.flatMap((sign) => segment(middle + sign * before, middle + sign * reached, look));
    }),
  ];
};

/** A bar that goes on: the drawing's break line. */
function breakMark(at: number, y: number, draw: Sheet["draw"]): SVGElement {
  return draw("path", { class: "fig-break", d: pathOf("M", at - 3, y + barHeight + 3, "l", 3, -7, "l", -3, -4, "l", 3, -9) });
}

/** The families of the worst case with what each gives, in as many lines as they need. */
function familyKey({ stack, sheet, writer }: Scene, top: number): { marks: SVGElement[]; bottom: number } {
  const { draw, id, width } = sheet;
  const { estimate, reaches } = worstCaseByFamily(stack);
  const decimals = decimalsOfTolerance(stack.limits, writer);
  const sign = stack.kind === "position" ? "" : "±";
  const entries = [
    ...(stack.kind === "position" && Number(formatFixed(estimate * writer.factor, decimals)) > 0 ? [{ text: `best estimate ${writer.fixed(estimate, decimals)}`, look: { class: "fig-outline", fill: "none" } }] : []),
    ...reaches.map(({ family, reach }) => ({ text: `${family} ${sign}${writer.fixed(reach, decimals)}`, look: { class: `fig-bar ${familyClass(family)}`, fill: familyFill(id, family) } })),
  ];
  const marks: SVGElement[] = [];
  let x = 2;
  let y = top;
  for (const { text, look } of entries) {
    const room = textWidth(text, smallSize) + 28;
    if (x > 2 && x + room > width) {
      x = 2;
      y += 16;
    }
    marks.push(draw("rect", { ...look, x: x + 0.5, y: y - 0.5, width: 9, height: 9 }), draw("text", { class: "fig-small fig-soft", x: x + 14, y: y + 8 }, text));
    x += room;
  }
  return { marks, bottom: entries.length > 0 ? y + 8 : top - 8 };
}

function rangeInWords({ lower, upper }: Range, { kind, limits }: Stack, writer: UnitWriter): string {
  const decimals = decimalsOfTolerance(limits, writer);
  if (kind === "position") return `⌀ ${writer.fixed(upper, decimals)}`;
  return `${writer.signed(lower, decimals)} to ${writer.signed(upper, decimals)}`;
}
