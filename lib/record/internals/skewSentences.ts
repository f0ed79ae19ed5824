import { axisOnlyErrors } from "../../datum/axisOnlyErrors.ts";
import type { SetupEvaluation } from "../../decision/setupEvaluation.ts";
import type { JudgementSentence } from "../judgementSentences.ts";
import { partFrame } from "../partFrame.ts";
import { type Figures, resultFigures } from "./figures.ts";

/** Where the part lies turned by so much that a face told as R + a · r is off by more than its own standard uncertainty: which face is off most, and what is not. */
export function skewSentences({ location, faces }: Pick<SetupEvaluation, "location" | "faces">, figures: Figures): JudgementSentence[] {
  const doubts = new Map(faces.map(({ id, budget }) => [id, budget.standardUncertainty]));
  const most = axisOnlyErrors(location).find(({ touch, error }) => error.value > (doubts.get(touch) ?? Number.POSITIVE_INFINITY));
  if (most === undefined || !location.thisPart.ok) return [];
  const { rotation } = partFrame(location.thisPart.value, location.seated);
  if (!rotation.ok) return [];
  const turn = resultFigures(rotation.value, 180 / Math.PI, 5);
  return [
    {
      kind: "skew",
      at: `touches.${most.touch}`,
      text: `The part lies turned by ${turn.value}° (u ${turn.standardUncertainty}°) about Z. The radius put along ${most.axis} and not along the normal, as where a face is told touch by touch and in a sum on paper, leaves "${most.element}" at "${most.touch}" ${figures.length(most.error.value)} ${figures.unit} short, which is more than its doubt. Part zero, sizes and deviations are compensated along the normal.`,
    },
  ];
}
