import type { Sheet } from "./figure.ts";
import { smallSize, textSize, wrapText } from "./textWidth.ts";

/** What bold letters take more than plain ones. */
const bold = 1.08;

/** Sentences below a figure, each from a new line, broken to its width (or to `room`, pixels). Returns the texts and how far down they reach. */
export function writeLines(
  { draw, width }: Sheet,
  sentences: readonly string[],
  top: number,
  className: string,
  room = width - 4,
): { marks: SVGElement[]; bottom: number } {
  const small = className.includes("fig-small");
  const size = (small ? smallSize : textSize) * (className.includes("fig-strong") ? bold : 1);
  let y = top;
  const marks = sentences
    .flatMap((sentence) => wrapText(sentence, room, size))
    .map((line) => {
      y += small ? 15 : 17;
      return draw("text", { class: className, x: 2, y }, line);
    });
  return { marks, bottom: y };
}
