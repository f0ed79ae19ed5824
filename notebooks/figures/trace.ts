import { type FigureEnvironment, type FigureOptions, openSheet, type Sheet } from "./figure.ts";
import { pathOf } from "./svgBuilder.ts";
import { fitText, smallSize, textWidth } from "./textWidth.ts";
import type { Trace, TraceColumn } from "./trace/traceOf.ts";
import { writeLines } from "./writeLines.ts";

export interface TraceOptions extends FigureOptions {
  /** Of which the trace is. */
  readonly title: string;
  /** What a name comes to, with its unit; undefined where it has no value. */
  readonly textOf: (name: string) => string | undefined;
  /** Whether a person wrote it: cells stand in whole frames, results and entries of the setup in broken ones. */
  readonly isOwn: (name: string) => boolean;
}

const gap = 20;
const widest = 136;
const lineHeight = 13;
const padding = 5;
const between = 9;
const mostLines = 3;

interface Box {
  readonly name: string;
  readonly lines: readonly string[];
  readonly value: string | undefined;
  readonly x: number;
  readonly y: number;
  readonly height: number;
}

/** What a value is made from, to its left, and what depends on it, to its right: a box for every name, a line for every use. */
export function trace(of: Trace, options: TraceOptions, environment: FigureEnvironment = {}): SVGSVGElement {
  const words = traceInWords(of, options.title);
  const sheet = openSheet(
    { ...options, kind: "trace", subject: options.title, title: `What ${options.title} is made of`, description: words.join(" ") },
    environment,
  );
  const width = Math.min(widest, (sheet.width - 4 - gap * (of.columns.length - 1)) / of.columns.length);
  const stacks = of.columns.map((column, i) => stackOf(column, 2 + i * (width + gap), width, options));
  const tallest = Math.max(...stacks.map(({ height }) => height));
  const boxes = new Map<string, Box>();
  const more: SVGElement[] = [];
  for (const [i, { drawn, height }] of stacks.entries()) {
    const shift = 4 + (tallest - height) / 2;
    for (const box of drawn) boxes.set(box.name, { ...box, y: box.y + shift });
    const left = of.columns[i]?.more ?? 0;
    if (left > 0) {
      const y = shift + height - 3;
      more.push(sheet.draw("text", { class: "fig-small fig-soft", x: 2 + i * (width + gap), y }, `${left} more`));
    }
  }
  const lines = of.edges.flatMap(([from, to]) => {
    const [a, b] = [boxes.get(from), boxes.get(to)];
    return a && b ? [sheet.draw("path", { class: "fig-hair", d: wayBetween(a, b, width) })] : [];
  });
  const told = writeLines(sheet, beyondInWords(of), tallest + 8, "fig-small fig-soft");
  const drawn = [...boxes.values()].flatMap((box) => drawBox(box, width, options, sheet));
  return sheet.finish(told.bottom + 8, [], [...lines, ...drawn, ...more, ...told.marks]);
}

function stackOf({ names, more }: TraceColumn, x: number, width: number, { textOf }: TraceOptions): { drawn: Box[]; height: number } {
  let y = 0;
  const drawn = names.map((name): Box => {
    const lines = breakName(name, width - 2 * padding);
    const value = textOf(name);
    const height = 2 * padding + lineHeight * (lines.length + (value === undefined ? 0 : 1));
    const box = { name, lines, value, x, y, height };
    y += height + between;
    return box;
  });
  return { drawn, height: y - between + (more > 0 ? between + lineHeight : 0) };
}

/** A name in lines: broken behind its underscores and points, where a person would. */
function breakName(name: string, room: number): string[] {
  const lines: string[] = [];
  for (const part of name.split(/(?<=[_.])/u)) {
    const last = lines.at(-1);
    if (last !== undefined && textWidth(last + part, smallSize) <= room) lines[lines.length - 1] = last + part;
    else lines.push(part);
  }
  const kept = lines.length > mostLines ? [...lines.slice(0, mostLines - 1), `${lines.slice(mostLines - 1).join("")}`] : lines;
  return kept.map((line) => fitText(line, room, smallSize));
}

function drawBox({ name, lines, value, x, y, height }: Box, width: number, { title, isOwn }: TraceOptions, { draw }: Sheet): SVGElement[] {
  const isStood = name === title;
  const text = (words: string, line: number, className: string) =>
    draw("text", { class: className, x: x + padding, y: y + padding + 9 + line * lineHeight }, words);
  return [
    draw("rect", { class: isStood ? "fig-box-stood" : isOwn(name) ? "fig-box" : "fig-box-other", x, y, width, height }),
    ...lines.map((line, i) => text(line, i, isStood ? "fig-small fig-strong" : "fig-small")),
    ...(value === undefined ? [] : [text(fitText(value, width - 2 * padding, smallSize), lines.length, "fig-small fig-soft")]),
  ];
}

/** From the right edge of what is used to the left edge of what uses it. */
function wayBetween(from: Box, to: Box, width: number): string {
  const [x1, y1, x2, y2] = [from.x + width, from.y + from.height / 2, to.x, to.y + to.height / 2];
  const bend = gap / 2;
  return pathOf("M", x1, y1, "C", x1 + bend, y1, x2 - bend, y2, x2, y2);
}

function beyondInWords({ beyond: { madeFrom, users } }: Trace): string[] {
  const parts = [...(madeFrom > 0 ? [`${madeFrom} more to the left`] : []), ...(users > 0 ? [`${users} more to the right`] : [])];
  return parts.length === 0 ? [] : [`Beyond three steps: ${parts.join(", ")}.`];
}

/** What the figure shows, in sentences. */
export function traceInWords(of: Trace, title: string): string[] {
  const names = (sign: -1 | 1) => of.columns.filter(({ depth }) => Math.sign(depth) === sign).flatMap((column) => column.names);
  const [made, users] = [names(-1), names(1)];
  return [
    made.length === 0 ? `${title} is made from nothing else that has a name.` : `${title} is made from ${made.join(", ")}.`,
    users.length === 0 ? "Nothing depends on it." : `On it depend ${users.join(", ")}.`,
    ...beyondInWords(of),
  ];
}
