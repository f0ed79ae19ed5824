import type { StrategyEvaluation } from "../../../lib/decision/setupEvaluation.ts";
import type { LocatedPart } from "../../../lib/part/locateElements.ts";
import type { UnitWriter } from "../displayUnit.ts";
import type { Sheet } from "../figure.ts";
import { pathOf } from "../svgBuilder.ts";
import { smallSize, wrapText } from "../textWidth.ts";
import type { Board } from "./board.ts";
import { drawDatum } from "./drawDatums.ts";
import { drawHeightZero, drawTool } from "./drawTool.ts";
import type { SketchTouch } from "./sketchModel.ts";

/** Where the strip stands on the sheet, pixels. */
export interface StripPlace {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  /** Words stand beside the drawing instead of below it. */
  readonly wordsBeside: boolean;
}

/** What is drawn in a strip beside the plan. */
export interface Heights {
  readonly touches: readonly SketchTouch[];
  readonly located: LocatedPart;
  readonly strategy: StrategyEvaluation | undefined;
  /** Thickness of a spacer, mm. */
  readonly thicknessOf: (spacer: string) => number | undefined;
}

/** Width of one face with its tool, datum letter and zero, pixels. */
const columnWidth = 68;
const stripMargin = 16;
const stripHeight = 132;
const metalTop = 84;
/** By how much an inclined face falls to either side, pixels. */
const inclinedFall = 9;
/** Cosine below which a face looks neither left nor right. */
const mostlyAside = 1e-9;
/** More than this many faces in a strip are told in words only. */
const mostShown = 3;
const mostTold = 5;

/** Width of the drawing for so many touches, pixels. */
export function stripWidth(touches: number): number {
  return Math.max(112, stripMargin + columnWidth * Math.min(mostShown, touches));
}

/** Touches from above, seen from the side: face, what lay on it, tool and its way. Returns how far down the strip reaches. */
export function drawHeights(
  { draw, sheet, writer, marks }: Pick<Board, "draw" | "sheet" | "writer" | "marks">,
  heights: Heights,
  { x, y, width, wordsBeside }: StripPlace,
): number {
  const { located, strategy } = heights;
  const levelOf = ({ element }: SketchTouch) => located.places.get(element.id)?.[2]?.nominal ?? 0;
  const down = heights.touches.filter(({ touch }) => touch.travelling === "-Z");
  const shown = [...down]
    .sort((a, b) => Number(b.lit) - Number(a.lit) || Number(b.used) - Number(a.used))
    .slice(0, mostShown)
    .sort((a, b) => down.indexOf(a) - down.indexOf(b));
  const levels = [...new Set(shown.map(levelOf))].sort((a, b) => b - a);
  const stepOf = (touch: SketchTouch) => y + metalTop + 16 * levels.indexOf(levelOf(touch));
  const drawn = stripWidth(shown.length);
  const [left, right] = [x + 12, x + drawn - 4];
  const column = (right - left) / Math.max(1, shown.length);
  const floor = y + stripHeight;

  const top = shown
    .map((touch, i) => {
      const fall = fallOf(touch.element);
      return pathOf("L", left + i * column, stepOf(touch) - fall, "L", left + (i + 1) * column, stepOf(touch) + fall);
    })
    .join(" ");
  if (shown.length > 0) {
    marks.push(
      draw("path", { class: "fig-metal", d: `${pathOf("M", left, floor)} ${top} ${pathOf("L", right, floor, "Z")}` }),
      draw("path", { class: "fig-edge", d: `${pathOf("M", left, floor)} ${top} ${pathOf("V", floor)}` }),
      draw("path", { class: "fig-open", d: pathOf("M", left - 4, floor, "H", right + 4) }),
    );
  }
  shown.forEach((touch, i) => {
    const surface = stepOf(touch);
    const centre = left + (i + 0.5) * column;
    const letter = touch.element.datum;
    const first = shown.findIndex(({ element }) => element.id === touch.element.id) === i;
    marks.push(...drawTool(touch, centre - (letter === "" ? -6 : 3), surface, y, { draw }));
    if (letter !== "" && first) drawDatum({ draw, marks, obstacles: [] }, letter, [left + (i + 1) * column - 12, surface], [0, -1]);
  });
  const zero = strategy?.zero[2].ok ? strategy.solution.zeroOnPart[2] : undefined;
  const zeroStep = shown.find((touch) => zero !== undefined && Math.abs(levelOf(touch) - zero) < 1e-9);
  if (zero !== undefined && zeroStep !== undefined)
    marks.push(...drawHeightZero([left + shown.indexOf(zeroStep) * column, stepOf(zeroStep)], { draw }));

  const told = heights.touches.slice(0, mostTold);
  const words = told.map((touch) => heightInWords(touch, heights, writer));
  if (told.length < heights.touches.length) words.push(`and ${heights.touches.length - told.length} more touches along Z`);
  if (zero !== undefined && zeroStep === undefined && shown.length > 0) {
    const reference = shown[0] as SketchTouch;
    const below = levelOf(reference) - zero;
    words.push(`Z zero ${writer.stated(Math.abs(below))}${writer.suffix} ${below > 0 ? "below" : "above"} ${reference.element.id}`);
  }
  return drawWords(words, { x, y, width, wordsBeside }, drawn, { draw, sheet, marks });
}

/** An inclined face is drawn askew, to the side to which it looks in the plan. */
function fallOf(element: SketchTouch["element"]): number {
  if (element.kind !== "angled face" || element.inclination === 0) return 0;
  return Math.cos(element.facing) < -mostlyAside ? -inclinedFall : inclinedFall;
}

function heightInWords({ touch, used }: SketchTouch, { thicknessOf }: Heights, writer: UnitWriter): string {
  const thickness = touch.spacer === undefined ? undefined : thicknessOf(touch.spacer);
  const between =
    touch.spacer === undefined
      ? ""
      : ` on ${touch.spacer}${thickness === undefined ? "" : `, ${writer.stated(thickness)}${writer.suffix}`}`;
  return `${touch.id}: ${touch.travelling} by ${touch.tool}${between}${used ? "" : " (not counted)"}`;
}

function drawWords(
  words: readonly string[],
  { x, y, width, wordsBeside }: StripPlace,
  drawn: number,
  { draw, marks }: Pick<Board, "draw" | "marks"> & { sheet: Sheet },
): number {
  const left = wordsBeside ? x + drawn + 14 : x + 6;
  const room = wordsBeside ? width - drawn - 14 : width - 6;
  let line = wordsBeside ? y + 34 : y + stripHeight + 4;
  for (const text of words.flatMap((sentence) => wrapText(sentence, room, smallSize))) {
    line += 14;
    marks.push(draw("text", { class: "fig-small fig-soft", x: left, y: line }, text));
  }
  return Math.max(line + 4, y + stripHeight + 4);
}
