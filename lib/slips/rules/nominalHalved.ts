import { isBeyondDoubt } from "../estimate.ts";
import { beyondDoubt } from "../internals/inRadii.ts";
import { signedText } from "../internals/words.ts";
import { judgeEach, type SlipRule } from "../slipRule.ts";

const falseAlarmRate = 0.003;

/** Rule 13. A middle by one face and half the drawing's size, where half-way between both touched faces lies elsewhere. */
export const nominalHalved: SlipRule = {
  name: "nominal width halved instead of the measured one",
  formula: "zero by one face and half the drawing's size - half-way between both faces",
  threshold: "beyond doubt: three standard uncertainties",
  falseAlarmRate,
  look: ({ halves, unit }) =>
    judgeEach(
      halves,
      "a zero at a middle by one of its faces, and a touch of the other,",
      ({ at, strategy, middle, difference }, times) => {
        if (!isBeyondDoubt(difference, falseAlarmRate, times)) return undefined;
        return {
          at,
          evidence: `"${strategy}" sets zero ${signedText(difference.value, unit)} off half-way between the touched faces of "${middle}"`,
          beyond: beyondDoubt(difference),
          suggests: "half the drawing's size may have been taken where half the measured one was meant",
          deciding: `hold "${middle}" in the strategy, or measure its width otherwise`,
        };
      },
    ),
};
