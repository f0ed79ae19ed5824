import { disagreesAbove } from "../../datum/measureSizes.ts";
import type { SetupEvaluation } from "../../decision/setupEvaluation.ts";
import { formatFixed } from "../../uncertainty/roundForReport.ts";
import type { JudgementSentence } from "../judgementSentences.ts";
import type { Figures } from "./figures.ts";

/** Sizes that the touches find otherwise than they were measured. */
export function sizeSentences({ sizes }: SetupEvaluation, figures: Figures): JudgementSentence[] {
  return sizes.flatMap(({ id, budget, difference }): JudgementSentence[] => {
    if (difference === undefined) return [];
    const { value, standardUncertainty } = difference;
    if (!(Math.abs(value) > disagreesAbove * standardUncertainty)) return [];
    const found = figures.result(budget);
    const off = figures.result({ ...difference, value: Math.abs(value) });
    const times =
      standardUncertainty > 0
        ? `${formatFixed(Math.abs(value) / standardUncertainty, 1)} times the standard uncertainty of the difference`
        : "and neither is in doubt";
    return [
      {
        kind: "size disagrees",
        at: `part.dimensions.${id}`,
        text: `The touches find "${id}" at ${found.value} ${figures.unit}, ${off.value} ${figures.unit} ${value > 0 ? "more" : "less"} than it was measured otherwise: ${times}. Rely on neither before the cause is found, such as a chip or a burr, a wrong radius, a wrong direction of travel, or a slip of the other measurement.`,
      },
    ];
  });
}
