import { figureText, lengthText } from "../internals/words.ts";
import { judgeEach, type SlipRule } from "../slipRule.ts";

/** Rule 22. A zero drifts with the machine's heat (F20); what the forecast says, with twice its doubt, must stay within its share. */
export const zeroTooOld: SlipRule = {
  name: "zero set cold, or too long ago",
  formula: "|drift since the zero, by the warm-up curve| + 2 u",
  threshold: "the share of the tolerance that drift may take",
  falseAlarmRate: 0.005,
  look: ({ ages, unit }) =>
    judgeEach(ages, "a warm-up curve and the time since the zero was set", ({ at, axis, minutes, drift, allowed }) => {
      const most = Math.abs(drift.value) + 2 * drift.standardUncertainty;
      if (!(most > allowed)) return undefined;
      return {
        at,
        evidence: `zero ${axis} is ${figureText(minutes)} minutes old and may have drifted by ${lengthText(most, unit)}; ${lengthText(allowed, unit)} is allowed`,
        beyond: most / allowed,
        suggests: "the zero may have been set on a colder machine than cuts now",
        deciding: `touch one face along ${axis} again and compare with its prediction`,
      };
    }),
};
