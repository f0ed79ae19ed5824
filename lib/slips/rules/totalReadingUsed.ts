import { lengthText, ratioText } from "../internals/words.ts";
import { judgeEach, type SlipRule } from "../slipRule.ts";

/** Rule 21. A swept indicator shows twice the shift; whoever moves by all of it moves twice as far (F23). */
export const totalReadingUsed: SlipRule = {
  name: "total indicator reading used for the shift",
  formula: "shift applied / total reading is 1 where it should be 0.5",
  threshold: "from 0.9 to 1.1",
  falseAlarmRate: undefined,
  look: ({ sweeps, unit }) =>
    judgeEach(
      sweeps?.filter(({ totalReading }) => totalReading !== 0),
      "the shift that was applied after a sweep",
      ({ at, axis, applied, totalReading }) => {
        const ratio = Math.abs(applied / totalReading);
        if (!(ratio > 0.9 && ratio < 1.1)) return undefined;
        return {
          at,
          evidence: `${lengthText(applied, unit)} was applied along ${axis} after a total reading of ${lengthText(totalReading, unit)}: ${ratioText(ratio)} times`,
          beyond: ratio / 0.9,
          suggests: `half of it may have been meant, ${lengthText(totalReading / 2, unit)}`,
          deciding: "sweep again: after half the total the indicator reads alike on both sides",
        };
      },
    ),
};
