import { lengthText } from "../internals/words.ts";
import { judgeEach, type SlipRule } from "../slipRule.ts";

/** From this on an eccentric tip is worth turning, mm (common practice, no source). */
const noticeable = 0.002;

/** Rule 15. In a middle the radius goes out where both touches use the same; an eccentric tip goes out only where the spindle is turned half round between. */
export const unlikeOppositeTouches: SlipRule = {
  name: "opposite touches not alike",
  formula: "the tools of both touches; eccentricity while the spindle was not turned",
  threshold: "two tools; 0.002 mm",
  falseAlarmRate: 0,
  look: ({ middles, unit }) =>
    judgeEach(middles, "a zero at a middle", ({ at, middle, faces: [one, other], eccentricity, turned }) => {
      if (one.tool !== other.tool)
        return {
          at,
          evidence: `"${one.touch}" was taken with "${one.tool}" and "${other.touch}" with "${other.tool}"`,
          beyond: Number.POSITIVE_INFINITY,
          suggests: `half the difference of both radii' errors goes into "${middle}"`,
          deciding: `touch both faces with one tool`,
        };
      if (turned || !(eccentricity > noticeable)) return undefined;
      return {
        at,
        evidence: `the tip of "${one.tool}" may stand ±${lengthText(eccentricity, unit)} off the spindle, and the spindle was not turned between "${one.touch}" and "${other.touch}"`,
        beyond: eccentricity / noticeable,
        suggests: `all of that goes into "${middle}"`,
        deciding: `turn the spindle half round and touch "${other.element}" again`,
      };
    }),
};
