import type { Stack } from "../../lib/tolerance/stack.ts";
import { type DisplayUnit, unitOfStack, writerOf } from "./displayUnit.ts";
import { familyPatterns } from "./familyPatterns.ts";
import { type FigureEnvironment, type FigureOptions, openSheet } from "./figure.ts";
import { outsidePattern } from "./outsidePattern.ts";
import { drawBars } from "./stack/drawBars.ts";
import { drawCurve } from "./stack/drawCurve.ts";
import { drawFamilyKey } from "./stack/drawFamilyKey.ts";
import { firstRow, rowHeight, sceneOf } from "./stack/scene.ts";
import { stackInWords } from "./stackInWords.ts";
import { writeLines } from "./writeLines.ts";

export interface ToleranceStackOptions extends FigureOptions {
  /** What is toleranced and how, for example `hole 3, position 0.10, corner on B`. */
  readonly title: string;
  readonly unit: DisplayUnit;
}

/**
 * How a characteristic uses its tolerance, on one axis: the distribution above
 * the limits with what lies outside hatched, the best estimate as a tick, the
 * root sum square as an outline and the worst case as segments by family.
 */
export function toleranceStack(stack: Stack, options: ToleranceStackOptions, environment: FigureEnvironment = {}): SVGSVGElement {
  const writer = writerOf(unitOfStack(stack, options.unit));
  const words = stackInWords(stack, writer);
  const sheet = openSheet(
    {
      ...options,
      kind: "stack",
      subject: options.title,
      title: `How the tolerance is used: ${options.title}`,
      description: words.join(" "),
    },
    environment,
  );
  const scene = sceneOf(stack, sheet, writer);
  const key = drawFamilyKey(scene, firstRow + 2 * rowHeight + 2);
  const [, chance = "", ...others] = words;
  const told = writeLines(sheet, [chance], key.bottom + 6, "fig-strong");
  const notes = writeLines(sheet, others, told.bottom, "fig-small fig-soft");
  const definitions = [...familyPatterns(sheet.draw, sheet.id), outsidePattern(sheet.draw, sheet.id)];
  return sheet.finish(notes.bottom + 6, definitions, [
    ...drawCurve(scene),
    ...drawBars(scene),
    ...key.marks,
    ...told.marks,
    ...notes.marks,
  ]);
}
