import { lengthText } from "../internals/words.ts";
import { judgeEach, type SlipRule } from "../slipRule.ts";

/** In standard uncertainties of the comparison. */
const near = 5;

/** Rule 8. A reading in work coordinates to which the offset was added, or added again, gives a zero of twice the offset. */
export const offsetAppliedTwice: SlipRule = {
  name: "offset applied twice",
  formula: "|new zero - 2 · previous zero| < 5 u, while the previous zero itself is farther than that from the new one",
  threshold: "5 standard uncertainties of the comparison",
  falseAlarmRate: 0.001,
  look: ({ zeros, unit }) =>
    judgeEach(zeros, "an offset that was active before", ({ at, axis, found, previous, standardUncertainty }) => {
      const off = Math.abs(found - 2 * previous);
      const limit = near * standardUncertainty;
      if (!(off < limit && Math.abs(found - previous) > 2 * limit)) return undefined;
      return {
        at,
        evidence: `zero ${axis} comes out at ${lengthText(found, unit)}, twice the offset of ${lengthText(previous, unit)} that was active, to within ${lengthText(off, unit)}`,
        beyond: limit / Math.max(off, limit / 1000),
        suggests: "the readings may be machine coordinates to which the offset was added",
        deciding: `look at the display at one of the touches along ${axis}, in machine coordinates`,
      };
    }),
};
