import { axes } from "../base/vector.ts";
import type { SourceBook } from "../uncertainty/sourceBook.ts";
import { certain, type Uncertain } from "../uncertainty/uncertain.ts";
import type { Element } from "./part.ts";

/**
 * How far an element that was there stands off what else tells how the part is turned or tilted, radians about an axis: one source per element and
 * axis. Exactly 0 where nothing is stated; who rests on it asks `outOfSquare` first.
 */
export function outOfSquareAbout({ id, outOfSquare }: Pick<Element, "id" | "outOfSquare">, about: 0 | 1 | 2, book: SourceBook): Uncertain {
  if (outOfSquare === undefined) return certain(0);
  return book.value({
    id: `element ${id}, out of square about ${axes[about]}`,
    label: `${id} out of square about ${axes[about]}`,
    family: "part",
    distribution: { shape: "rectangular", halfWidth: outOfSquare },
    evidence: { kind: "stated" },
  });
}
