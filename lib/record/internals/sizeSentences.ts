import { disagreesAbove } from "../../datum/measureSizes.ts";
import type { SetupEvaluation } from "../../decision/setupEvaluation.ts";
import type { Budget } from "../../uncertainty/budget.ts";
import { formatFixed } from "../../uncertainty/roundForReport.ts";
import type { JudgementSentence } from "../judgementSentences.ts";
import type { Figures } from "./figures.ts";

/** Sizes that the touches find otherwise than they were measured, and what both together say where they agree. */
export function sizeSentences({ sizes }: SetupEvaluation, figures: Figures): JudgementSentence[] {
  return sizes.flatMap(({ id, budget, difference, combined }): JudgementSentence[] => {
    if (difference === undefined) return [];
    const { value, standardUncertainty } = difference;
    if (!(Math.abs(value) > disagreesAbove * standardUncertainty))
      return combined ? [togetherSentence(id, difference, combined, figures)] : [];
    const found = figures.result(budget);
    // A budget's lines are worked out when they are asked for: copied without being named, they would be left behind.
    const off = figures.result({ ...difference, contributions: difference.contributions, value: Math.abs(value) });
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

/** Two findings of one size that fit each other are worth more than either. */
function togetherSentence(id: string, difference: Budget, combined: Budget, figures: Figures): JudgementSentence {
  const best = figures.result(combined);
  const off = figures.result(difference);
  return {
    kind: "size agrees",
    at: `part.dimensions.${id}`,
    text: `"${id}" by the touches and as it was measured otherwise agree within their doubts (difference ${off.value}, u ${off.standardUncertainty} ${figures.unit}); together they say ${best.value} ${figures.unit}, u ${best.standardUncertainty}. Zero and this part go on resting on the touches alone.`,
  };
}
