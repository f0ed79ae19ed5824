import { isBeyondDoubt } from "../estimate.ts";
import { beyondDoubt } from "../internals/inRadii.ts";
import { signedText } from "../internals/words.ts";
import { judgeEach, type SlipRule } from "../slipRule.ts";

const falseAlarmRate = 0.05;
/** What all lifts together may err, a little less than is stated. */
const errorChance = 0.04;

/** Rule 17. A part that stands higher over one pad than over the others, beside a well seated one, or twists (F27), lies on a chip or a burr. */
export const notSeated: SlipRule = {
  name: "part not seated",
  formula: "lift over every pad less that over the others, and twist Z1 - Z2 + Z3 - Z4, against a part that sat well",
  threshold: "beyond doubt: two standard uncertainties for one of them, more for several",
  falseAlarmRate,
  look: ({ seats, unit }) =>
    judgeEach(seats, "touches from above on this part and on one that sat well", ({ at, what, lift }, times) => {
      if (!isBeyondDoubt(lift, errorChance, times)) return undefined;
      return {
        at,
        evidence: `${what} is ${signedText(lift.value, unit)} beside a part that sat well`,
        beyond: beyondDoubt(lift),
        suggests: "a chip or a burr may lie under the part, or a jaw may have lifted it",
        deciding: "clean, seat and clamp again, and repeat the touches from above",
      };
    }),
};
