import { figureText } from "../internals/words.ts";
import { judgeEach, type SlipRule } from "../slipRule.ts";

/** Of the zone (common practice, no source). */
const mostShare = 0.3;

/** Rule 12. A zero on a face that is no datum of the drawing brings the size between both into every feature, with its gain g (F12). */
export const faceIsNoDatum: SlipRule = {
  name: "zero on a face that is no datum",
  formula: "2 · |g| · half the tolerance of the size between / zone",
  threshold: "0.3 of the zone",
  falseAlarmRate: 0,
  look: ({ mismatches }) => {
    const answer = judgeEach(
      mismatches,
      "what the strategy in use does to a characteristic",
      ({ at, strategy, characteristic, size, share }) => {
        if (!(share > mostShare)) return undefined;
        return {
          at,
          evidence: `by "${strategy}" the variation of "${size}" alone may use ${figureText(100 * share)} % of "${characteristic}"`,
          beyond: share / mostShare,
          suggests: "the zero may rest on another face than the drawing measures from",
          deciding: "touch the datum face of the drawing, or measure that size on this part",
        };
      },
    );
    // The worst of each size says it; its other characteristics follow from the same mismatch.
    if (answer.kind !== "found") return answer;
    const worst = [...answer.findings].sort((a, b) => b.beyond - a.beyond);
    return { kind: "found", findings: worst.slice(0, 1) };
  },
};
