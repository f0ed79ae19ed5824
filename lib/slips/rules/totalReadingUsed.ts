import { formatFixed } from "../../uncertainty/roundForReport.ts";
import { isBeyondDoubt } from "../estimate.ts";
import { lengthText, ratioText } from "../internals/words.ts";
import { judgeEach, type SlipRule } from "../slipRule.ts";

const falseAlarmRate = 0.003;

/** Rule 21. A swept indicator shows twice the shift, and a lever at an angle even more; whoever moves by all of it moves at least twice as far (F23). */
export const totalReadingUsed: SlipRule = {
  name: "total indicator reading used for the shift",
  formula: "shift applied / total reading, as shown or times the cosine of the lever, is 1 where it should be 0.5 times that cosine",
  threshold: "from 0.9 to 1.1, and the shift beyond doubt another one than half the total reading",
  falseAlarmRate,
  look: ({ sweeps, unit }) =>
    judgeEach(
      sweeps?.filter(({ totalReading }) => totalReading !== 0),
      "the shift that was applied after a sweep",
      ({ at, axis, applied, totalReading, cosine, standardUncertainty }, times) => {
        const shown = Math.abs(applied / totalReading);
        const ratio = [shown, shown / cosine].find((each) => each > 0.9 && each < 1.1);
        const beyondHalf = Math.abs(applied) - (Math.abs(totalReading) / 2) * cosine;
        const estimate = { value: beyondHalf, standardUncertainty, degreesOfFreedom: Number.POSITIVE_INFINITY };
        if (ratio === undefined || !isBeyondDoubt(estimate, falseAlarmRate, times)) return undefined;
        return {
          at,
          evidence: `${lengthText(applied, unit)} was applied along ${axis} after a total reading of ${lengthText(totalReading, unit)}: ${ratioText(shown)} times`,
          beyond: ratio / 0.9,
          suggests: `half of it${cosine < 1 ? `, times ${formatFixed(cosine, 3)} for the angle of the lever,` : ""} may have been meant, ${lengthText(((Math.sign(applied) * Math.abs(totalReading)) / 2) * cosine, unit)}`,
          deciding: "sweep again: after half the total the indicator reads alike on both sides",
        };
      },
    ),
};
