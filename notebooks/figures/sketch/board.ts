import type { UnitWriter } from "../displayUnit.ts";
import type { Sheet } from "../figure.ts";
import type { Box, Placeable } from "../placeLabels.ts";
import type { Draw } from "../svgBuilder.ts";
import { fitText, smallSize, textWidth, wrapText } from "../textWidth.ts";
import { moved, type Projection, type Spot } from "./projection.ts";

/** A label that waits for its place. */
export interface Label extends Placeable {
  /** One line, or two where a name is too long for one. */
  readonly text: readonly string[];
  readonly className: string;
  /** Left out rather than laid over something. */
  readonly optional: boolean;
  /** The whole text where only its beginning is shown. */
  readonly whole: string;
}

/** What the parts of a sketch draw on: marks in the order of drawing, boxes that labels keep off, and labels. */
export interface Board {
  readonly sheet: Sheet;
  readonly draw: Draw;
  readonly writer: UnitWriter;
  readonly projection: Projection;
  readonly marks: SVGElement[];
  readonly obstacles: Box[];
  /** Lines that labels rather keep off. */
  readonly lines: Box[];
  readonly labels: Label[];
}

/** Of a line of a label, pixels. */
export const lineHeight = 14;

/** Offers a label the places about a spot: `prefer` the side on which it should stand. */
export function label(
  board: Board,
  text: string,
  about: Spot,
  options: {
    readonly room?: number;
    readonly gap?: number;
    readonly prefer?: readonly Side[];
    readonly className?: string;
    readonly optional?: boolean;
  } = {},
): void {
  const { room = 96, gap = 6, prefer = ["right", "left", "above", "below"], className = "", optional = false } = options;
  const size = className.includes("fig-small") ? smallSize : undefined;
  const [first = "", ...rest] = wrapText(text, room, size);
  const shown = rest.length === 0 ? [first] : [first, fitText(rest.join(" "), room, size)];
  const box = { width: Math.max(...shown.map((line) => textWidth(line, size))), height: shown.length * lineHeight };
  board.labels.push({
    text: shown,
    whole: text,
    className,
    optional,
    candidates: prefer.map((side) => boxAt(side, about, box, gap)),
    names: { spot: about, gap },
  });
}

export type Side = "right" | "left" | "above" | "below" | "above right" | "above left" | "below right" | "below left";

function boxAt(side: Side, [x, y]: Spot, size: Pick<Box, "width" | "height">, gap: number): Box {
  const { width, height } = size;
  // Off a round thing the corner is nearer by the diagonal.
  const near = gap * 0.75;
  switch (side) {
    case "right":
      return { ...size, x: x + gap, y: y - height / 2 };
    case "left":
      return { ...size, x: x - gap - width, y: y - height / 2 };
    case "above":
      return { ...size, x: x - width / 2, y: y - gap - height };
    case "below":
      return { ...size, x: x - width / 2, y: y + gap };
    case "above right":
      return { ...size, x: x + near, y: y - near - height };
    case "above left":
      return { ...size, x: x - near - width, y: y - near - height };
    case "below right":
      return { ...size, x: x + near, y: y + near };
    case "below left":
      return { ...size, x: x - near - width, y: y + near };
  }
}

/** The box about two spots, grown by `around`. */
export function boxAbout(a: Spot, b: Spot, around = 0): Box {
  return {
    x: Math.min(a[0], b[0]) - around,
    y: Math.min(a[1], b[1]) - around,
    width: Math.abs(a[0] - b[0]) + 2 * around,
    height: Math.abs(a[1] - b[1]) + 2 * around,
  };
}

/** Thin boxes along a line, so that labels rather keep off it. */
export function boxesAlong(a: Spot, b: Spot): Box[] {
  const pieces = Math.max(1, Math.ceil(Math.min(Math.abs(a[0] - b[0]), Math.abs(a[1] - b[1])) / 2));
  const at = (share: number): Spot => [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share];
  return Array.from({ length: pieces }, (_, i) => boxAbout(at(i / pieces), at((i + 1) / pieces), 1));
}

/** A filled arrowhead with its tip at a spot. */
export function arrowhead(draw: Draw, tip: Spot, direction: Spot, className: string, length = 8): SVGElement {
  const back = moved(tip, -length, direction);
  const aside: Spot = [-direction[1], direction[0]];
  const [left, right] = [moved(back, length * 0.36, aside), moved(back, -length * 0.36, aside)];
  return draw("polygon", { class: className, points: [tip, left, right].map(([x, y]) => `${x.toFixed(2)},${y.toFixed(2)}`).join(" ") });
}
