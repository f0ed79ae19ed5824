import { isBeyondDoubt } from "../estimate.ts";
import { figureText, signedText } from "../internals/words.ts";
import { judgeEach, type SlipRule } from "../slipRule.ts";

const falseAlarmRate = 0.003;
/** Of the zone (common practice, no source). */
const mostShare = 0.1;

/** Rule 18. Two touches of one edge that differ tell a skew; without looking at it the farthest feature is off by difference / baseline · arm (F6). */
export const skewIgnored: SlipRule = {
  name: "skew ignored",
  formula: "difference of two touches of one edge, times arm / baseline",
  threshold: "beyond doubt (3·√2·s for two single touches), and half of a tenth of the narrowest zone",
  falseAlarmRate,
  look: ({ edges, unit }) =>
    judgeEach(
      edges?.filter(({ baseline }) => baseline > 0),
      "a second touch of one edge at another place",
      ({ at, element, touches, difference, baseline, arm, characteristic, zone }, times) => {
        const error = Math.abs((difference.value / baseline) * arm);
        const share = (2 * error) / zone;
        if (!isBeyondDoubt(difference, falseAlarmRate, times) || !(share > mostShare)) return undefined;
        return {
          at,
          evidence: `"${touches[1]}" finds "${element}" ${signedText(difference.value, unit)} beside "${touches[0]}"; at the farthest feature that makes ${figureText(100 * share)} % of "${characteristic}"`,
          beyond: share / mostShare,
          suggests: "the part may lie skewed, and the strategy in use does not look at it",
          deciding: `touch "${element}" at a third place: on a skewed part it lies on the same line`,
        };
      },
    ),
};
