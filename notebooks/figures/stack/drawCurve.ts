import { decimalsOfStep } from "../decimalsOfStep.ts";
import { outsideFill } from "../outsidePattern.ts";
import { pathOf } from "../svgBuilder.ts";
import { textWidth } from "../textWidth.ts";
import { densityCurve } from "./densityCurve.ts";
import { axisY, barHeight, curveTop, firstRow, rowHeight, type Scene } from "./scene.ts";

/** Limits, density with what lies outside hatched, and the axis with the best estimate. */
export function drawCurve(scene: Scene): SVGElement[] {
  return [...limitLines(scene), ...curve(scene), ...axis(scene)];
}

function limitLines({ stack: { limits, isRound }, sheet: { draw, width }, writer, x }: Scene): SVGElement[] {
  // Past the curve and past either bar, not through the words between them.
  const bars = [0, 1].map((row) => firstRow + row * rowHeight + 3);
  const stretches = (at: number) =>
    [pathOf("M", at, 16, "V", axisY + 4), ...bars.map((top) => pathOf("M", at, top, "V", top + barHeight + 9))].join(" ");
  const line = (value: number) => draw("path", { class: "fig-limit", d: stretches(x(value)) });
  const hasUpper = Number.isFinite(limits.upper);
  const labels = isRound
    ? [{ at: limits.upper, text: `zone ⌀ ${writer.stated(limits.upper)}${writer.suffix}` }]
    : [
        { at: limits.lower, text: `${writer.statedSigned(limits.lower)}${hasUpper ? "" : writer.suffix}` },
        ...(hasUpper ? [{ at: limits.upper, text: `${writer.statedSigned(limits.upper)}${writer.suffix}` }] : []),
      ];
  const [first, last] = [labels[0] as (typeof labels)[number], labels[labels.length - 1] as (typeof labels)[number]];
  const crowded = first !== last && x(last.at) - x(first.at) < (textWidth(first.text) + textWidth(last.text)) / 2 + 8;
  return [
    ...(isRound ? [] : [line(limits.lower)]),
    ...(hasUpper ? [line(limits.upper)] : []),
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
    return [draw("path", { class: "fig-outside fig-bad", fill: outsideFill(id), d: area(closed) })];
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
    ...marks.map((mark) =>
      draw("text", { class: "fig-small fig-soft fig-middle", x: x(mark), y: axisY + 16 }, writer.fixed(mark, decimals)),
    ),
    // A tick that stands on the axis like a plumb bob: where the best estimate is.
    draw("path", { class: "fig-estimate", d: pathOf("M", here, axisY + 3, "l", -4, -9, "h", 8, "Z") }),
  ];
}
