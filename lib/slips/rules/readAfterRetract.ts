import { isBeyondDoubt } from "../estimate.ts";
import { beyondDoubt } from "../internals/inRadii.ts";
import { lengthText, signedText } from "../internals/words.ts";
import { judgeEach, type SlipRule } from "../slipRule.ts";

const falseAlarmRate = 0.003;

/** Rule 28. A reading that is off by exactly the way back was written down after the retract. */
export const readAfterRetract: SlipRule = {
  name: "reading written down after the retract",
  formula: "|reading - its repeats| - retract distance",
  threshold: "within three standard uncertainties of 0, and the reading beyond doubt",
  falseAlarmRate,
  look: ({ readings, unit }) =>
    judgeEach(
      readings?.filter(({ retract }) => retract > 0),
      "how far the tool is drawn back after a touch",
      ({ at, name, difference, expectedBy, retract }, times) => {
        const isRetract = Math.abs(Math.abs(difference.value) - retract) < 3 * difference.standardUncertainty + 1e-9;
        if (!isRetract || !isBeyondDoubt(difference, falseAlarmRate, times)) return undefined;
        return {
          at,
          evidence: `${name} is ${signedText(difference.value, unit)} beside ${expectedBy}: the retract distance of ${lengthText(retract, unit)}`,
          beyond: beyondDoubt(difference),
          suggests: "it may have been written down after the tool was drawn back",
          deciding: "touch again and read while the tool is in contact",
        };
      },
    ),
};
