import { formatFixed } from "../../../lib/uncertainty/roundForReport.ts";
import { familyClass, familyFill } from "../familyPatterns.ts";
import { decimalsOfTolerance } from "../stackInWords.ts";
import { smallSize, textWidth } from "../textWidth.ts";
import type { Scene } from "./scene.ts";
import { worstCaseByFamily } from "./worstCaseByFamily.ts";

/** The families of the worst case with what each gives, in as many lines as they need. */
export function drawFamilyKey({ stack, sheet, writer }: Scene, top: number): { marks: SVGElement[]; bottom: number } {
  const { draw, id, width } = sheet;
  const { estimate, reaches } = worstCaseByFamily(stack);
  const decimals = decimalsOfTolerance(stack.limits, writer);
  const sign = stack.isRound ? "" : "±";
  const entries = [
    ...(stack.isRound && Number(formatFixed(estimate * writer.factor, decimals)) > 0
      ? [{ text: `best estimate ${writer.fixed(estimate, decimals)}`, look: { class: "fig-outline", fill: "none" } }]
      : []),
    ...reaches.map(({ family, reach }) => ({
      text: `${family} ${sign}${writer.fixed(reach, decimals)}`,
      look: { class: `fig-bar ${familyClass(family)}`, fill: familyFill(id, family) },
    })),
  ];
  const marks: SVGElement[] = [];
  let x = 2;
  let y = top;
  for (const { text, look } of entries) {
    const room = textWidth(text, smallSize) + 28;
    if (x > 2 && x + room > width) {
      x = 2;
      y += 16;
    }
    marks.push(
      draw("rect", { ...look, x: x + 0.5, y: y - 0.5, width: 9, height: 9 }),
      draw("text", { class: "fig-small fig-soft", x: x + 14, y: y + 8 }, text),
    );
    x += room;
  }
  return { marks, bottom: entries.length > 0 ? y + 8 : top - 8 };
}
