import { lengthText } from "../internals/words.ts";
import { judgeEach, type SlipRule } from "../slipRule.ts";

/** The other turn fits this many times better (common practice, no source). */
const factor = 10;

/** Rule 14. What was cut in the first operation must reappear where the turn puts it (F11); where another turn fits and this one does not, it was the other. */
export const turnedOverOtherwise: SlipRule = {
  name: "part turned over about another axis",
  formula: "|touched - predicted by the assumed turn| / |touched - predicted by another turn|",
  threshold: "10, with the assumed one beyond three standard uncertainties and the other within",
  falseAlarmRate: 0.003,
  look: ({ turnovers, unit }) =>
    judgeEach(
      turnovers,
      "a feature of the first operation found again",
      ({ at, feature, axis, touched, standardUncertainty, assumed, others }) => {
        const off = Math.abs(touched - assumed.predicted);
        const fitting = others.find(({ predicted }) => Math.abs(touched - predicted) < Math.min(3 * standardUncertainty, off / factor));
        if (fitting === undefined || !(off > 3 * standardUncertainty)) return undefined;
        return {
          at,
          evidence: `"${feature}" lies at ${axis} ${lengthText(touched, unit)}; turned ${assumed.turn} it should lie at ${lengthText(assumed.predicted, unit)}, turned ${fitting.turn} at ${lengthText(fitting.predicted, unit)}`,
          beyond: off / (3 * Math.max(standardUncertainty, Number.MIN_VALUE)),
          suggests: `the part may have been turned ${fitting.turn}`,
          deciding: "find a second feature that is not on the same axis",
        };
      },
    ),
};
