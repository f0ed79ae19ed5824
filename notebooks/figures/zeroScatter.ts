import { scaleLinear, ticks } from "d3";
import type { SetupEvaluation, StrategyEvaluation } from "../../lib/decision/setupEvaluation.ts";
import type { Budget } from "../../lib/uncertainty/budget.ts";
import { decimalsOfStep } from "./decimalsOfStep.ts";
import { type DisplayUnit, type UnitWriter, writerOf } from "./displayUnit.ts";
import { type FigureEnvironment, type FigureOptions, openSheet, type Sheet } from "./figure.ts";
import { outcomeInWords } from "./outcomeInWords.ts";
import { pathOf } from "./svgBuilder.ts";
import { smallSize, wrapText } from "./textWidth.ts";
import { type ZeroEllipse, zeroEllipse } from "./zeroEllipse.ts";

export interface ZeroScatterOptions extends FigureOptions {
  readonly unit: DisplayUnit;
}

/**
 * Where the true zero may be in X and Y about the one that was found: ellipses of
 * 63 % and 95 %, the steps of the register where they are stated, and the offset
 * as it is typed.
 */
export function zeroScatter(evaluation: SetupEvaluation, strategyId: string, options: ZeroScatterOptions, environment: FigureEnvironment = {}): SVGSVGElement {
  const found = zeroOf(evaluation, strategyId);
  const writer = writerOf(options.unit);
  const head = { ...options, kind: "scatter", subject: strategyId, title: `Where the zero of ${strategyId} may be in X and Y` };
  if (typeof found === "string") {
    const sheet = openSheet({ ...head, description: `Not known: ${found}.` }, environment);
    const lines = wrapText(`Not known: ${found}.`, sheet.width - 4);
    return sheet.finish(14 + lines.length * 16, [], lines.map((line, i) => sheet.draw("text", { class: "fig-soft", x: 2, y: 17 + i * 16 }, line)));
  }
  const words = scatterInWords(found, writer);
  const sheet = openSheet({ ...head, description: words.join(" ") }, environment);
  const map = mapOf(found, sheet, writer);
  const content = [...frame(map), ...grid(map, found), ...found.ellipses.map(({ ellipse, name }) => outline(ellipse, name, map)), ...points(map, found)];
  let y = map.bottom + 36;
  for (const line of [...words, ...(map.tooFine ? ["The steps of the register are too fine to be drawn."] : [])].flatMap((sentence) => wrapText(sentence, sheet.width - 4, smallSize))) {
    content.push(sheet.draw("text", { class: "fig-small fig-soft", x: 2, y }, line));
    y += 15;
  }
  return sheet.finish(y - 8, [], content);
}

/** What the map shows of a strategy. */
export interface FoundZero {
  readonly x: Budget;
  readonly y: Budget;
  readonly ellipses: readonly { readonly name: string; readonly probability: number; readonly ellipse: ZeroEllipse }[];
  /** The offset as typed, less the zero as found, mm; undefined where it is not known. */
  readonly typed: readonly [number, number] | undefined;
  /** Step of the register, mm; 0 when not stated. */
  readonly step: number;
}

/** 63.2 % is what one standard deviation along both axes of the ellipse times √2 holds: 1 - 1/e. */
const regions = [
  { name: "63 %", probability: 1 - Math.exp(-1) },
  { name: "95 %", probability: 0.95 },
] as const;

/** X and Y of a strategy's zero with all that is drawn about them, or why there is nothing to draw. */
export function zeroOf({ strategies, setup }: SetupEvaluation, strategyId: string): FoundZero | string {
  const evaluation = strategies.find(({ id }) => id === strategyId)?.evaluation;
  if (evaluation === undefined) return `there is no strategy "${strategyId}"`;
  if (!evaluation.ok) return outcomeInWords(evaluation.problems);
  const [x, y] = evaluation.value.zero;
  if (!x.ok) return outcomeInWords(x.problems);
  if (!y.ok) return outcomeInWords(y.problems);
  return {
    x: x.value,
    y: y.value,
    ellipses: regions.map((region) => ({ ...region, ellipse: zeroEllipse(x.value, y.value, region.probability) })),
    typed: typedOffset(evaluation.value, x.value, y.value),
    step: setup.machine.offsetStep,
  };
}

function typedOffset({ offset }: StrategyEvaluation, x: Budget, y: Budget): readonly [number, number] | undefined {
  if (!offset.ok) return undefined;
  const along = (axis: "X" | "Y") => offset.value.values.find((entry) => entry.axis === axis)?.value;
  const [typedX, typedY] = [along("X"), along("Y")];
  return typedX === undefined || typedY === undefined ? undefined : [typedX - x.value, typedY - y.value];
}

interface Map2 {
  readonly sheet: Sheet;
  readonly writer: UnitWriter;
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
  /** Half of the square that is shown, mm. */
  readonly half: number;
  readonly x: (value: number) => number;
  readonly y: (value: number) => number;
  readonly tooFine: boolean;
}

const top = 10;
/** Register steps closer than this, pixels, are a grey area and no grid. */
const leastStep = 5;

function mapOf({ ellipses, typed, step }: FoundZero, sheet: Sheet, writer: UnitWriter): Map2 {
  const side = Math.min(300, sheet.width - 74);
  const left = Math.max(62, (sheet.width - side) / 2);
  const largest = Math.max(...ellipses.map(({ ellipse }) => ellipse.major), ...(typed ?? []).map(Math.abs), step * 0.75);
  const half = largest > 0 ? largest * 1.15 : 1;
  const x = scaleLinear([-half, half], [left, left + side]);
  const y = scaleLinear([-half, half], [top + side, top]);
  return { sheet, writer, left, top, right: left + side, bottom: top + side, half, x, y, tooFine: step > 0 && (step / half) * (side / 2) < leastStep };
}

function frame({ sheet: { draw }, writer, left, right, bottom, half, x, y }: Map2): SVGElement[] {
  const marks = ticks(-half * writer.factor, half * writer.factor, 4);
  const decimals = decimalsOfStep(marks);
  const places = marks.map((mark) => mark / writer.factor);
  return [
    draw("rect", { class: "fig-frame", x: left, y: top, width: right - left, height: bottom - top }),
    draw("path", { class: "fig-chain", d: pathOf("M", left, y(0), "H", right, "M", x(0), top, "V", bottom) }),
    ...places.flatMap((place) => [
      draw("path", { class: "fig-axis", d: pathOf("M", x(place), bottom, "v", 4, "M", left, y(place), "h", -4) }),
      draw("text", { class: "fig-small fig-soft fig-middle", x: x(place), y: bottom + 16 }, writer.signed(place, decimals)),
      draw("text", { class: "fig-small fig-soft fig-end", x: left - 7, y: y(place) + 4 }, writer.signed(place, decimals)),
    ]),
    draw("text", { class: "fig-small fig-end fig-halo", x: right - 5, y: bottom - 6 }, `X${writer.suffix === "" ? "" : `,${writer.suffix}`}`),
    draw("text", { class: "fig-small fig-halo", x: left + 5, y: top + 14 }, `Y${writer.suffix === "" ? "" : `,${writer.suffix}`}`),
  ];
}

/** The values that the register can hold, through the offset as typed. */
function grid({ sheet: { draw }, left, right, bottom, half, x, y, tooFine }: Map2, { typed, step }: FoundZero): SVGElement[] {
  if (step <= 0 || typed === undefined || tooFine) return [];
  const lines = (offset: number) => {
    const first = Math.ceil((-half - offset) / step);
    const count = Math.floor((half - offset) / step) - first + 1;
    return Array.from({ length: Math.max(0, count) }, (_, i) => offset + (first + i) * step);
  };
  return [
    draw("path", { class: "fig-hair", d: lines(typed[0]).map((at) => pathOf("M", x(at), top, "V", bottom)).join(" ") }),
    draw("path", { class: "fig-hair", d: lines(typed[1]).map((at) => pathOf("M", left, y(at), "H", right)).join(" ") }),
  ];
}

function outline({ major, minor, angle }: ZeroEllipse, name: string, { sheet: { draw }, x, y }: Map2): SVGElement {
  const length = (value: number) => Math.max(0.5, x(value) - x(0));
  const degrees = Math.round((-angle * 18000) / Math.PI) / 100;
  return draw(
    "g",
    {},
    draw("ellipse", { class: name === "95 %" ? "fig-region fig-region-wide" : "fig-region", cx: x(0), cy: y(0), rx: length(major), ry: length(minor), transform: `rotate(${degrees} ${x(0).toFixed(2)} ${y(0).toFixed(2)})` }),
    draw("text", { class: "fig-small fig-calm fig-halo", x: x(major * Math.cos(angle) * 0.71 - minor * Math.sin(angle) * 0.71) + 4, y: y(major * Math.sin(angle) * 0.71 + minor * Math.cos(angle) * 0.71) - 3 }, name),
  );
}

function points({ sheet: { draw }, x, y }: Map2, { typed }: FoundZero): SVGElement[] {
  const zero = draw("circle", { class: "fig-calm-dot", cx: x(0), cy: y(0), r: 2.5 });
  if (typed === undefined) return [zero];
  const [tx, ty] = [x(typed[0]), y(typed[1])];
  return [zero, draw("path", { class: "fig-typed", d: pathOf("M", tx - 5, ty - 5, "l", 10, 10, "m", 0, -10, "l", -10, 10) })];
}

/** What the map shows, as sentences. */
export function scatterInWords({ x, y, ellipses, typed, step }: FoundZero, writer: UnitWriter): string[] {
  const [ux, uy] = [writer.withUncertainty(x.value, x.standardUncertainty), writer.withUncertainty(y.value, y.standardUncertainty)];
  const correlation = ellipses[0]?.ellipse.correlation ?? 0;
  const together = Math.abs(correlation) < 0.005 ? "X and Y share no doubt." : `X and Y share doubt: correlation ${correlation.toFixed(2).replace("-", "−")}.`;
  const finest = Math.max(ux.decimals, uy.decimals);
  return [
    `● zero as found: X ${ux.value} (u ${ux.uncertainty}), Y ${uy.value} (u ${uy.uncertainty})${writer.suffix}. ${together}`,
    ...(typed === undefined ? [] : [`× the offset as typed, off by X ${writer.signed(typed[0], finest)}, Y ${writer.signed(typed[1], finest)}${writer.suffix}${step > 0 ? `; thin lines: the register's steps of ${writer.stated(step)}${writer.suffix}` : ""}.`]),
    "Ellipses hold the true zero with 63 % and 95 %, if both are normal.",
  ];
}
