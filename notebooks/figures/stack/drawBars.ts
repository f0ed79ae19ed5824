import type { Range, Stack } from "../../../lib/tolerance/stack.ts";
import type { UnitWriter } from "../displayUnit.ts";
import { familyClass, familyFill } from "../familyPatterns.ts";
import type { Sheet } from "../figure.ts";
import { formatShare } from "../formatChance.ts";
import { decimalsOfTolerance } from "../stackInWords.ts";
import { pathOf } from "../svgBuilder.ts";
import { barHeight, firstRow, rowHeight, type Scene } from "./scene.ts";
import { worstCaseByFamily } from "./worstCaseByFamily.ts";

/** Root sum square as an outline, and worst case as segments by family, each with its share of the tolerance. */
export function drawBars(scene: Scene): SVGElement[] {
  const { rootSumSquare, worstCase, shares } = scene.stack;
  return [
    ...barRow("root sum square", rootSumSquare, shares.rootSumSquare, firstRow, scene, outlineBar),
    ...barRow("worst case", worstCase, shares.worstCase, firstRow + rowHeight, scene, segmentBar),
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
  if (range.upper > upper)
    beyond.push(draw("path", { class: "fig-beyond", d: pathOf("M", x(upper), beam, "H", x(Math.min(to, range.upper))) }));
  if (range.lower < lower)
    beyond.push(draw("path", { class: "fig-beyond", d: pathOf("M", x(Math.max(from, range.lower)), beam, "H", x(lower)) }));
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
  const { isRound } = stack;
  let reached = isRound ? Math.max(0, estimate) : 0;
  const start = reached;
  const sides = isRound ? [1] : [1, -1];
  const middle = isRound ? 0 : stack.deviation;
  return [
    ...segment(0, start, { class: "fig-outline", fill: "none" }).slice(0, isRound ? 1 : 0),
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

function rangeInWords({ lower, upper }: Range, { isRound, limits }: Stack, writer: UnitWriter): string {
  const decimals = decimalsOfTolerance(limits, writer);
  if (isRound) return `⌀ ${writer.fixed(upper, decimals)}`;
  return `${writer.signed(lower, decimals)} to ${writer.signed(upper, decimals)}`;
}
