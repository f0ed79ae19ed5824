import { isBeyondDoubt } from "../estimate.ts";
import { beyondDoubt } from "../internals/inRadii.ts";
import { signedText } from "../internals/words.ts";
import { judgeEach, type SlipRule } from "../slipRule.ts";

const falseAlarmRate = 0.003;
/** What usually lies between tool and face, mm: blocks of 25, 50, 1 in and 2 in, a sheet of paper (common practice, no source). */
const usual = [25, 50, 25.4, 50.8, 0.08].map((thickness) => ({ name: `a usual thickness of ${thickness} mm`, thickness }));

/** Rule 7. A height that is off by the thickness of a block has it forgotten, or taken off twice. */
export const blockForgotten: SlipRule = {
  name: "block or paper forgotten, or counted twice",
  formula: "|height by this touch - height otherwise| = h",
  threshold: "within three standard uncertainties of a thickness that is known here or usual, and beyond doubt",
  falseAlarmRate,
  look: ({ heights, unit }) =>
    judgeEach(heights, "a height by two ways", ({ at, name, against, difference, spacers }, times) => {
      if (!isBeyondDoubt(difference, falseAlarmRate, times)) return undefined;
      const known = [...spacers.map(({ name: spacer, thickness }) => ({ name: `"${spacer}"`, thickness })), ...usual];
      const block = known.find(
        ({ thickness }) => Math.abs(Math.abs(difference.value) - thickness) < 3 * difference.standardUncertainty + 1e-9,
      );
      if (block === undefined) return undefined;
      return {
        at,
        evidence: `${name} lies ${signedText(difference.value, unit)} beside ${against}: the thickness of ${block.name}`,
        beyond: beyondDoubt(difference),
        suggests: `${block.name} may be forgotten or counted twice, here or at ${against}`,
        deciding: "touch the same face again with nothing between",
      };
    }),
};
