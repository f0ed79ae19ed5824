import { isBeyondDoubt } from "../estimate.ts";
import { beyondDoubt } from "../internals/inRadii.ts";
import { lengthText, signedText } from "../internals/words.ts";
import { judgeEach, type SlipRule } from "../slipRule.ts";

const falseAlarmRate = 0.003;

/** Rule 6. A height that is off by the difference of two tool lengths was worked out with the length of the wrong tool. */
export const wrongToolLength: SlipRule = {
  name: "length of another tool",
  formula: "|height by this tool - height otherwise| = |length of another tool - length of this one|",
  threshold: "within three standard uncertainties of it, and beyond doubt",
  falseAlarmRate,
  look: ({ heights, unit }) =>
    judgeEach(
      heights?.filter(({ lengths }) => lengths.length > 0),
      "a height by two ways, and the length of another tool,",
      (fact, times) => {
        const { difference, tool, length } = fact;
        if (!isBeyondDoubt(difference, falseAlarmRate, times)) return undefined;
        // F = R - L, and the wrong length may stand at this touch or at what it is compared with.
        const other = fact.lengths.find(
          (each) => Math.abs(Math.abs(difference.value) - Math.abs(each.length - length)) < 3 * difference.standardUncertainty + 1e-9,
        );
        if (other === undefined) return undefined;
        return {
          at: fact.at,
          evidence: `${fact.name} lies ${signedText(difference.value, unit)} beside ${fact.against}; "${other.tool}" is longer than "${tool}" by ${signedText(other.length - length, unit)}`,
          beyond: beyondDoubt(difference),
          suggests: `"${other.tool}" may have been in the spindle here or at ${fact.against}, or its length may stand in the place of that of "${tool}"`,
          deciding: `touch the same face with "${other.tool}" and its own length, ${lengthText(other.length, unit)}`,
        };
      },
    ),
};
