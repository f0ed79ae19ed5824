import { placeLabels } from "../placeLabels.ts";
import { type Board, lineHeight } from "./board.ts";

/** An optional label that would lie over something with more than this share of itself is left out. */
const mostCovered = 0.08;

/** Places all labels that wait and writes them. Returns the texts of those that found no place. */
export function drawLabels({ draw, marks, labels, obstacles, lines }: Board, width: number, bottom: number): string[] {
  const leftOut: string[] = [];
  // What must be told takes its place first.
  const ordered = [...labels].sort((a, b) => Number(a.optional) - Number(b.optional));
  const boxes = placeLabels(ordered, obstacles, { x: 2, y: 2, width: width - 4, height: bottom - 2 }, lines);
  ordered.forEach(({ text, whole: name, className, optional }, i) => {
    const { box, covered } = boxes[i] as (typeof boxes)[number];
    if (optional && covered > mostCovered) {
      leftOut.push(name);
      return;
    }
    const isWhole = text.join(" ") === name;
    for (const [at, line] of text.entries()) {
      const attributes = { class: `fig-halo ${className}`.trim(), x: box.x, y: box.y + at * lineHeight + 11 };
      marks.push(draw("text", attributes, line, ...(isWhole ? [] : [draw("title", {}, name)])));
    }
  });
  return leftOut;
}
