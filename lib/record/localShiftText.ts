import { listText } from "../base/listText.ts";
import type { LocalShiftBefore } from "../offsets/localShiftBefore.ts";
import { figuresIn, figuresOf } from "./internals/figures.ts";

/** What a new local shift takes the place of, as a sentence; empty where nothing was shifted. */
export function replacedShiftSentence({ inForce, toEnd }: LocalShiftBefore, unit: "mm" | "inch"): string {
  const lengths = figuresIn(unit);
  const words = inForce.map(({ coordinate, entry: { row, value } }) => {
    const figures = coordinate === "turn" ? figuresOf({ unit: "rad" }, lengths) : lengths;
    return `${coordinate} ${figures.length(value.value)} ${figures.unit} (“${row}”)`;
  });
  const zeros = toEnd.length === 0 ? "" : ` ${listText(toEnd)} of it ${toEnd.length === 1 ? "is" : "are"} ended by 0.`;
  return words.length === 0 ? zeros.trim() : `It takes the place of ${listText(words)}.${zeros}`;
}
