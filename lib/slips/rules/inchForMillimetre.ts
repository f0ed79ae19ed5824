import { figureText, lengthText } from "../internals/words.ts";
import type { LengthFact } from "../slipFacts.ts";
import { judgeEach, type SlipRule } from "../slipRule.ts";

/** log₁₀ 25.4, the ratio of an inch to a millimetre (exact by definition, NIST SP 811). */
const inch = Math.log10(25.4);
/** How near the ratio must come, as a logarithm: 4.7 % (common practice, no source). */
const near = 0.02;

/** Rule 5. A value that is 25.4 times too large or too small was read in the other unit. */
export const inchForMillimetre: SlipRule = {
  name: "inch and millimetre mixed",
  formula: "log10(value / expected) is +1.405 or -1.405",
  threshold: "within 0.02 of it",
  falseAlarmRate: 0.001,
  look: ({ expectedLengths, unit }) =>
    judgeEach(
      expectedLengths?.filter(({ value, expected }) => value * expected > 0),
      "a length that is known otherwise",
      (fact) => {
        const ratio = fact.value / fact.expected;
        const off = Math.abs(Math.abs(Math.log10(ratio)) - inch);
        if (!(off < near)) return undefined;
        return {
          at: fact.at,
          evidence: `${fact.name} is ${lengthText(fact.value, unit)} beside ${lengthText(fact.expected, unit)} by ${fact.expectedBy}: ${figureText(ratio)} times`,
          beyond: near / Math.max(off, near / 1000),
          suggests: ratio > 1 ? "millimetres may have been read as inches" : "inches may have been read as millimetres",
          deciding: converted(fact, ratio, unit),
        };
      },
    ),
};

function converted({ value, name }: LengthFact, ratio: number, unit: "mm" | "inch"): string {
  const meant = ratio > 1 ? value / 25.4 : value * 25.4;
  return `look at the unit of ${name}: in the other unit it would be ${lengthText(meant, unit)}`;
}
