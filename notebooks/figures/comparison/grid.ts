import type { DisplayUnit } from "../displayUnit.ts";
import type { Sheet } from "../figure.ts";
import { pathOf } from "../svgBuilder.ts";
import { fitText, wrapText } from "../textWidth.ts";
import type { ComparisonColumn } from "./comparisonOf.ts";

/** Where rows and columns stand, and the scale of their bars. */
export interface Grid {
  readonly sheet: Sheet;
  /** Of lengths. */
  readonly unit: DisplayUnit;
  readonly nameRoom: number;
  readonly columnRoom: number;
  /** Length of the track of a bar, pixels, and the share of the tolerance that it stands for. */
  readonly bar: number;
  readonly most: number;
  readonly chosen: string;
  readonly head: GridHead;
}

/** Where the lines of a head stand, pixels: the chance of all with its error, the number of touches, the scale. */
export interface GridHead {
  readonly nameLines: number;
  readonly chance: number;
  readonly touches: number;
  readonly scale: number;
  readonly height: number;
}

export function headOf(columns: readonly ComparisonColumn[], columnRoom: number): GridHead {
  const wanted = Math.max(fewestLines, ...columns.map(({ id }) => wrapText(id, columnRoom - 10).length));
  const nameLines = Math.min(mostLines, wanted);
  const below = nameLines * nameLine;
  return { nameLines, chance: below + 2, touches: below + 51, scale: below + 70, height: below + 77 };
}

/** Holds the longest chance, `> 99.99 %` in bold. */
export const leastColumn = 82;
export const mostColumn = 150;
/** Names of strategies take two lines of a head; three where one of them needs it. */
const fewestLines = 2;
const mostLines = 3;
const nameLine = 14;

export const cellHeight = 36;
/** Bars of more than twice the tolerance end in a break. */
export const mostShare = 2;

export function scaleEnd(columns: readonly ComparisonColumn[]): number {
  const shares = columns.flatMap(({ cells }) =>
    cells.flatMap((cell) => (cell.ok ? [cell.value.stack.shares.rootSumSquare, cell.value.stack.shares.deviation] : [])),
  );
  return Math.min(mostShare, Math.max(1.2, ...shares));
}

export function xOf(column: number, { nameRoom, columnRoom }: Grid): number {
  return nameRoom + column * columnRoom + 8;
}

export function gridEnd(columns: readonly ComparisonColumn[], { nameRoom, columnRoom }: Grid): number {
  return nameRoom + columns.length * columnRoom;
}

export function heading({ id, rank, touches }: ComparisonColumn, column: number, grid: Grid): SVGElement[] {
  const { sheet, bar, most, chosen, columnRoom, head } = grid;
  const { draw } = sheet;
  const x = xOf(column, grid);
  const lines = wrapText(id, columnRoom - 10);
  const kept = lines.slice(0, head.nameLines - 1);
  const shown = lines.length > head.nameLines ? [...kept, fitText(lines.slice(kept.length).join(" "), columnRoom - 10)] : lines;
  // Short names stand at the foot of their room, above what is told of them.
  const first = 12 + (head.nameLines - shown.length) * nameLine;
  const limit = x + bar / most;
  return [
    draw(
      "g",
      {},
      draw("title", {}, `${rank}. ${id}${id === chosen ? ", chosen" : ""}`),
      ...shown.map((line, i) => draw("text", { class: id === chosen ? "fig-strong" : "fig-name", x, y: first + i * nameLine }, line)),
    ),
    ...(touches === undefined
      ? []
      : [draw("text", { class: "fig-small fig-soft", x, y: head.touches }, touches === 1 ? "1 touch" : `${touches} touches`)]),
    ...(id === chosen ? [draw("path", { class: "fig-chosen", d: pathOf("M", x, head.chance + 1.5, "h", bar) })] : []),
    draw("text", { class: "fig-small fig-soft", x, y: head.scale }, "0"),
    draw("text", { class: "fig-small fig-soft fig-middle", x: limit, y: head.scale }, "100 %"),
  ];
}

export function rowLine(y: number, { sheet: { draw, width } }: Grid, to = width): SVGElement {
  return draw("path", { class: "fig-hair", d: pathOf("M", 0, y, "H", to) });
}

export function rowName(name: string, y: number, { sheet: { draw }, nameRoom }: Grid): SVGElement {
  const shown = fitText(name, nameRoom - 6);
  return draw("text", { x: 2, y: y + 15 }, shown, ...(shown === name ? [] : [draw("title", {}, name)]));
}
