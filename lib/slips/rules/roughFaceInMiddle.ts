import { fisherUpperTail } from "../../uncertainty/special/fisherF.ts";
import { figureText, lengthText } from "../internals/words.ts";
import { judgeEach, type SlipRule } from "../slipRule.ts";

/** Of standard deviations, and of roughnesses (common practice, no source). */
const ratioLimit = 3;
const significance = 0.05;

/** Rule 11. Half of the worse face's roughness goes into a middle. F test of two variances (NIST/SEMATECH e-Handbook, 1.3.5.9), to both sides. */
export const roughFaceInMiddle: SlipRule = {
  name: "middle with one rough or burred face",
  formula: "s2 / s1 of the repeats on both faces, with an F test; or the ratio of their stated roughnesses",
  threshold: "3 with p < 0.05; or 3",
  falseAlarmRate: significance,
  look: ({ middles, unit }) =>
    judgeEach(middles, "a zero at a middle", ({ at, middle, faces: [one, other] }, times) => {
      const [a, b] = [one.scatter, other.scatter];
      if (a && b && a.standardDeviation > 0 && b.standardDeviation > 0) {
        const [worse, better, name] = a.standardDeviation > b.standardDeviation ? [a, b, one.touch] : [b, a, other.touch];
        const ratio = worse.standardDeviation / better.standardDeviation;
        const chance = 2 * fisherUpperTail(ratio ** 2, worse.degreesOfFreedom, better.degreesOfFreedom);
        if (ratio > ratioLimit && chance * times < significance)
          return {
            at,
            evidence: `the repeats of "${name}" scatter ${figureText(ratio)} times as much as those on the opposite face of "${middle}" (F test: chance ${figureText(chance)})`,
            beyond: ratio / ratioLimit,
            suggests: "that face may be rough or burred; half of what it does goes into the middle",
            deciding: `touch that face at another place`,
          };
      }
      const [rough, smooth] = one.roughness > other.roughness ? [one, other] : [other, one];
      if (!(smooth.roughness > 0 && rough.roughness > ratioLimit * smooth.roughness)) return undefined;
      return {
        at,
        evidence: `"${rough.element}" has a roughness of ±${lengthText(rough.roughness, unit)}, "${smooth.element}" of ±${lengthText(smooth.roughness, unit)}`,
        beyond: rough.roughness / (ratioLimit * smooth.roughness),
        suggests: `±${lengthText(rough.roughness / 2, unit)} of that goes into "${middle}"`,
        deciding: `touch "${rough.element}" at several places, or set the zero by "${smooth.element}" alone`,
      };
    }),
};
