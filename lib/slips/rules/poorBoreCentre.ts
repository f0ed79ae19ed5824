import { chanceByDoubt, type Estimate } from "../estimate.ts";
import { beyondDoubt } from "../internals/inRadii.ts";
import { figureText, signedText } from "../internals/words.ts";
import type { BoreFact } from "../slipFacts.ts";
import { judgeEach, type SlipFinding, type SlipRule } from "../slipRule.ts";

const falseAlarmRate = 0.005;
/** The centre's standard uncertainty in units of one touch's (common practice, no source). */
const mostAmplification = 2;

/** Rule 20. Touches on a short arc amplify their scatter (F5); a touch in a keyway or on a burr leaves a residual; the diameter says it too. */
export const poorBoreCentre: SlipRule = {
  name: "poor centre of a round wall",
  formula:
    "root of the largest diagonal entry of (AᵀA)⁻¹ for the centre, rows [cos t, sin t, 1]; residuals of the points; diameter touched - known",
  threshold: "2; beyond doubt; beyond doubt",
  falseAlarmRate,
  look: ({ bores, unit }) =>
    judgeEach(
      bores,
      "a round wall touched at three places or more",
      (fact, times) => shortArc(fact) ?? strangePoint(fact, unit, times) ?? otherDiameter(fact, unit, times),
    ),
};

function shortArc({ at, element, amplification }: BoreFact): SlipFinding | undefined {
  if (!(amplification > mostAmplification)) return undefined;
  return {
    at,
    evidence: `the centre of "${element}" is ${figureText(amplification)} times as doubtful as one touch`,
    beyond: amplification / mostAmplification,
    suggests: "its touches may lie on too short an arc",
    deciding: "touch the wall on the opposite side as well",
  };
}

function strangePoint({ element, points }: BoreFact, unit: "mm" | "inch", times: number): SlipFinding | undefined {
  const judged = points.filter(({ residual }) => residual.standardUncertainty > 0);
  const worst = judged.reduce<(typeof judged)[number] | undefined>(
    (most, point) => (most === undefined || chanceByDoubt(point.residual) < chanceByDoubt(most.residual) ? point : most),
    undefined,
  );
  if (worst === undefined || !stands(worst.residual, times * judged.length)) return undefined;
  return {
    at: `touches.${worst.touch}.readings`,
    evidence: `"${worst.touch}" lies ${signedText(worst.residual.value, unit)} off the circle of "${element}"`,
    beyond: beyondDoubt(worst.residual),
    suggests: "it may have met a keyway, a burr or a chip",
    deciding: `touch "${element}" again beside that place`,
  };
}

function otherDiameter({ at, element, diameter }: BoreFact, unit: "mm" | "inch", times: number): SlipFinding | undefined {
  if (diameter === undefined || !stands(diameter, times)) return undefined;
  return {
    at,
    evidence: `the touches find the diameter of "${element}" ${signedText(diameter.value, unit)} beside what is known of it`,
    beyond: beyondDoubt(diameter),
    suggests: "a touch may have met something else, or the radius of the tool may be wrong",
    deciding: `gauge "${element}" with a pin or a micrometer`,
  };
}

/** Residuals and diameter each have half of what the rule may err. */
function stands(estimate: Estimate, times: number): boolean {
  return chanceByDoubt(estimate) * times < falseAlarmRate / 2;
}
