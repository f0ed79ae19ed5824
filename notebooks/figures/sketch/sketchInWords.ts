import { axes } from "../../../lib/base/vector.ts";
import type { SetupEvaluation, StrategyEvaluation } from "../../../lib/decision/setupEvaluation.ts";
import type { UnitWriter } from "../displayUnit.ts";
import { type DrawnSize, sizeInWords } from "./drawSizes.ts";
import type { SketchModel } from "./sketchModel.ts";

/** The sketch for those who do not see it. */
export function sketchInWords({ setup }: SetupEvaluation, model: SketchModel, strategyId: string, writer: UnitWriter): string {
  const { strategy, touches, sizes, missing } = model;
  const name = setup.part.name === "" ? "The part" : setup.part.name;
  const used = touches
    .filter(({ used: counts }) => counts)
    .map(({ touch, element }) => `${touch.id} on ${element.id} (${touch.travelling})`);
  return [
    `${name}, seen from above, with its touches and datums.`,
    used.length > 0 ? `${strategyId} counts ${used.join(", ")}.` : "No touch is counted.",
    ...(strategy === undefined ? [] : [zeroInWords(strategy, writer)]),
    ...sizes.map((size) => `${sizeInWords(size, writer, writer.suffix).text}.`),
    ...missing,
  ].join(" ");
}

/** Measured sizes that have no dimension line in the plan. */
export function otherSizes({ sizes }: SketchModel, drawn: readonly DrawnSize[], writer: UnitWriter): string[] {
  const rest = sizes.filter((size) => !drawn.some((each) => each.size === size));
  return rest.length === 0 ? [] : [`Measured by touches: ${rest.map((size) => sizeInWords(size, writer, writer.suffix).text).join("; ")}.`];
}

function zeroInWords({ solution: { zeroOnPart, strategy } }: StrategyEvaluation, writer: UnitWriter): string {
  const places = strategy.zero.map((place, i) => {
    const at = place.kind === "element" ? place.element : `${writer.stated(zeroOnPart[i as 0 | 1 | 2])}${writer.suffix} of the drawing`;
    return `${axes[i]} at ${at}`;
  });
  return `Part zero: ${places.join(", ")}.`;
}
