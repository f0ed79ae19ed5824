import type { UnitWriter } from "../displayUnit.ts";
import { pathOf } from "../svgBuilder.ts";
import { fitText, textWidth } from "../textWidth.ts";
import { arrowhead, type Board } from "./board.ts";
import type { Plan } from "./planOf.ts";
import type { Margins, Spot } from "./projection.ts";
import { moved } from "./projection.ts";
import type { SketchSize } from "./sketchModel.ts";
import { toleranceInWords } from "./toleranceInWords.ts";

/** A measured size along an axis, between two places of the plan, mm. */
export interface DrawnSize {
  readonly size: SketchSize;
  readonly axis: 0 | 1;
  readonly from: number;
  readonly to: number;
  /** On which side of the part its line runs, and how far off, pixels. */
  readonly side: keyof Margins;
  readonly offset: number;
}

/** Room that one dimension line with its text takes, pixels. */
export const sizeRoom = 24;

/** Dimension lines (ISO 129-1) of sizes that touches have measured: what the drawing says, and what is here. */
export function drawSizes(board: Board, { x, y }: Plan, sizes: readonly DrawnSize[]): void {
  const { draw, marks, projection, writer } = board;
  // Texts after all lines, which they interrupt.
  const texts: SVGElement[] = [];
  for (const { size, axis, from, to, side, offset } of sizes) {
    const out =
      side === "top"
        ? ([0, 1] as const)
        : side === "bottom"
          ? ([0, -1] as const)
          : side === "left"
            ? ([-1, 0] as const)
            : ([1, 0] as const);
    const edge = side === "top" ? y[1].at : side === "bottom" ? y[0].at : side === "left" ? x[0].at : x[1].at;
    const away = projection.along(out[0], out[1]);
    const foot = (at: number) => (axis === 0 ? projection.spot(at, edge) : projection.spot(edge, at));
    const feet = [foot(Math.min(from, to)), foot(Math.max(from, to))] as const;
    const [start, end] = feet.map((each) => moved(each, offset, away)) as [Spot, Spot];
    const way = projection.along(axis === 0 ? 1 : 0, axis === 0 ? 0 : 1);
    const length = Math.hypot(end[0] - start[0], end[1] - start[1]);
    marks.push(
      draw("path", {
        class: "fig-thin",
        d: feet.map((each) => pathOf("M", ...moved(each, 4, away), "L", ...moved(each, offset + 4, away))).join(" "),
      }),
      draw("path", { class: "fig-thin", d: pathOf("M", ...start, "L", ...end) }),
      arrowhead(draw, end, way, "fig-ink-fill", 7),
      arrowhead(draw, start, [-way[0], -way[1]], "fig-ink-fill", 7),
    );
    const words = sizeInWords(size, writer);
    const { bounds } = projection;
    const room = Math.max(length + 20, axis === 0 ? bounds.right - bounds.left + 40 : bounds.bottom + 36);
    const shown = [words.text, words.short].find((text) => textWidth(text) <= room) ?? fitText(words.here, room);
    // Turned with the line, and read from below or from the right (ISO 129-1).
    const turned = (-projection.turned * 180) / Math.PI - (axis === 1 ? 90 : 0);
    const middle = kept([(start[0] + end[0]) / 2, (start[1] + end[1]) / 2], axis, textWidth(shown) / 2, board);
    const above = moved(
      middle,
      5,
      axis === 0
        ? [Math.sin(-projection.turned), -Math.cos(projection.turned)]
        : [-Math.cos(projection.turned), -Math.sin(-projection.turned)],
    );
    texts.push(
      draw(
        "text",
        {
          class: words.out ? "fig-middle fig-bad fig-halo" : "fig-middle fig-halo",
          transform: `translate(${above[0].toFixed(2)} ${above[1].toFixed(2)}) rotate(${turned.toFixed(2)})`,
        },
        shown,
        ...(shown === words.text ? [] : [draw("title", {}, words.text)]),
      ),
    );
    const half = textWidth(shown) / 2;
    board.obstacles.push(
      axis === 0
        ? { x: middle[0] - half, y: middle[1] - 18, width: 2 * half, height: 20 }
        : { x: middle[0] - 18, y: middle[1] - half, width: 20, height: 2 * half },
    );
  }
  marks.push(...texts);
}

/** The middle of a text that is longer than its line, kept on the sheet. */
function kept([x, y]: Spot, axis: 0 | 1, half: number, { sheet, projection: { bounds } }: Board): Spot {
  if (axis === 0) return [Math.max(half + 2, Math.min(sheet.width - half - 2, x)), y];
  return [x, Math.max(half + 2, Math.min(Math.max(bounds.bottom + 36, 2 * half + 4) - half - 2, y))];
}

/** `length 120 ±0.2, here 119.872`, with the unit behind that where it is asked for; the same without its name; and whether it is outside its limits. */
export function sizeInWords(
  { id, nominal, limits, budget }: SketchSize,
  writer: UnitWriter,
  unit = "",
): { text: string; short: string; here: string; out: boolean } {
  // Against its axis a size is negative: a drawing states its length.
  const turn = nominal < 0 ? -1 : 1;
  const off = budget.value - nominal;
  const out = limits !== undefined && limits.lower < limits.upper && (off < limits.lower || off > limits.upper);
  const here = `here ${writer.withUncertainty(turn * budget.value, budget.standardUncertainty).value}${unit}${out ? ", outside" : ""}`;
  const short = `${writer.stated(turn * nominal)}${limits === undefined ? "" : toleranceInWords(limits, turn, writer)}, ${here}`;
  return { text: `${id} ${short}`, short, here, out };
}
