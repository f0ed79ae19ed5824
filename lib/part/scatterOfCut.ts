import { axes } from "../base/vector.ts";
import type { SourceBook } from "../uncertainty/sourceBook.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";
import type { Element } from "./part.ts";

/** How far the cut itself misses its place along an axis, mm: one source per element and axis. */
export function scatterOfCut({ id, process }: Pick<Element, "id" | "process">, axis: 0 | 1 | 2, book: SourceBook): Uncertain {
  return book.value({
    id: `element ${id}, process ${axes[axis]}`,
    label: `cutting ${id}, ${axes[axis]}`,
    family: "process",
    distribution: { shape: "normal", standardDeviation: process },
    evidence: { kind: "stated" },
  });
}
