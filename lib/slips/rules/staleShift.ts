import { signedText } from "../internals/words.ts";
import { judgeEach, type SlipRule } from "../slipRule.ts";

/** In standard uncertainties. */
const most = 5;

/** Rule 9. What is in force is more than measured zero and correction, and no nest asks for it: a shift was left on (NISTIR 6556, 3.2.2: offsets add). */
export const staleShift: SlipRule = {
  name: "shift left on",
  formula: "sum in force - measured zero - correction, while no nest is active",
  threshold: "5 standard uncertainties",
  falseAlarmRate: 0.001,
  look: ({ shifts, unit }) =>
    judgeEach(shifts, "what is in force of every shift", ({ at, register, axis, remaining, nestActive }) => {
      const limit = most * remaining.standardUncertainty;
      if (nestActive || !(Math.abs(remaining.value) > limit)) return undefined;
      return {
        at,
        evidence: `${signedText(remaining.value, unit)} is in force along ${axis} beyond what ${register} holds`,
        beyond: limit === 0 ? Number.POSITIVE_INFINITY : Math.abs(remaining.value) / limit,
        suggests: "a local or global shift may still be on",
        deciding: `take all shifts off and look at ${axis} of the display at one known place`,
      };
    }),
};
