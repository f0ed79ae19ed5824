import { figureText } from "../internals/words.ts";
import { judgeEach, type SlipRule } from "../slipRule.ts";

/** Of the zone (common practice, no source). */
const mostShare = 0.2;

/** Rule 19. The angle's doubt times the arm of the farthest feature (F6). */
export const shortBaseline: SlipRule = {
  name: "angle from too short a baseline",
  formula: "u of the angle · arm of the farthest feature / zone",
  threshold: "0.2 of the zone",
  falseAlarmRate: 0.001,
  look: ({ angles }) =>
    judgeEach(angles, "a strategy that measures the skew", ({ at, strategy, standardUncertainty, arm, characteristic, zone }) => {
      const share = (standardUncertainty * arm) / zone;
      if (!(share > mostShare)) return undefined;
      return {
        at,
        evidence: `by "${strategy}" the doubt of the angle is ${figureText(100 * share)} % of "${characteristic}" at its arm`,
        beyond: share / mostShare,
        suggests: "the touches that tell the angle may lie too close together",
        deciding: "touch the edge as far apart as it allows",
      };
    }),
};
