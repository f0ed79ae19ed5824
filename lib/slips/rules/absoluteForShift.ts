import { lengthText } from "../internals/words.ts";
import { judgeEach, type SlipRule } from "../slipRule.ts";

/** Of the pitch (common practice, no source). */
const mostShare = 0.1;

/** Rule 27. A machine coordinate typed where a shift from the zero was asked for is too large by the zero itself. */
export const absoluteForShift: SlipRule = {
  name: "machine position typed as a shift",
  formula: "|shift - pitch| / |pitch|, and shift - pitch - measured zero",
  threshold: "0.1, and within a tenth of the pitch or three standard uncertainties of 0",
  falseAlarmRate: 0.001,
  look: ({ nestShifts, unit }) =>
    judgeEach(
      nestShifts?.filter(({ pitch }) => pitch !== 0),
      "a shift and its nominal pitch",
      ({ at, axis, shift, pitch, measuredZero, standardUncertainty }) => {
        const excess = shift - pitch;
        const limit = mostShare * Math.abs(pitch);
        if (!(Math.abs(excess) > limit && Math.abs(excess - measuredZero) < Math.max(limit, 3 * standardUncertainty))) return undefined;
        return {
          at,
          evidence: `the shift along ${axis} is ${lengthText(shift, unit)} for a pitch of ${lengthText(pitch, unit)}: more by about the zero itself, ${lengthText(measuredZero, unit)}`,
          beyond: Math.abs(excess) / limit,
          suggests: `the machine position of the nest may have been typed; the shift would be ${lengthText(shift - measuredZero, unit)}`,
          deciding: `look at ${axis} of the display over the second nest with the first zero active`,
        };
      },
    ),
};
