import type { SetupEvaluation } from "../../lib/decision/setupEvaluation.ts";
import { type DisplayUnit, writerOf } from "./displayUnit.ts";
import { type FigureEnvironment, type FigureOptions, openSheet } from "./figure.ts";
import { foundZero } from "./scatter/foundZero.ts";
import { scatterInWords } from "./scatter/scatterInWords.ts";
import { drawEllipse, drawFrame, drawPoints, drawSteps, zeroMap } from "./scatter/zeroMap.ts";
import { writeLines } from "./writeLines.ts";

export interface ZeroScatterOptions extends FigureOptions {
  readonly unit: DisplayUnit;
}

/**
 * Where the true zero may be in X and Y about the one that was found: ellipses of
 * 63 % and 95 %, the steps of the register where they are stated, and the offset
 * as it is typed.
 */
export function zeroScatter(
  evaluation: SetupEvaluation,
  strategyId: string,
  options: ZeroScatterOptions,
  environment: FigureEnvironment = {},
): SVGSVGElement {
  const found = foundZero(evaluation, strategyId);
  const writer = writerOf(options.unit);
  const head = { ...options, kind: "scatter", subject: strategyId, title: `Where the zero of ${strategyId} may be in X and Y` };
  if (typeof found === "string") {
    const sheet = openSheet({ ...head, description: `Not known: ${found}.` }, environment);
    const words = writeLines(sheet, [`Not known: ${found}.`], 2, "fig-soft");
    return sheet.finish(words.bottom + 8, [], words.marks);
  }
  const sentences = scatterInWords(found, writer);
  const sheet = openSheet({ ...head, description: sentences.join(" ") }, environment);
  const map = zeroMap(found, sheet, writer);
  const tooFine = map.tooFine ? ["The steps of the register are too fine to be drawn."] : [];
  const words = writeLines(sheet, [...sentences, ...tooFine], map.bottom + 22, "fig-small fig-soft");
  const ellipses = found.ellipses.map(({ ellipse, name }) => drawEllipse(ellipse, name, map));
  return sheet.finish(
    words.bottom + 7,
    [],
    [...drawFrame(map), ...drawSteps(map, found), ...ellipses, ...drawPoints(map, found), ...words.marks],
  );
}
