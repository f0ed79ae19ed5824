import { millimetresPerInch } from "../../base/quantity.ts";
import { formatFixed } from "../../uncertainty/roundForReport.ts";
import { chanceByDoubt, isBeyondDoubt } from "../estimate.ts";
import { beyondDoubt } from "../internals/inRadii.ts";
import { lengthText, signedText } from "../internals/words.ts";
import { judgeEach, type SlipRule } from "../slipRule.ts";

const falseAlarmRate = 0.003;

/** Rule 25. Two digits exchanged, a minus dropped, a decimal point moved: the value with that undone lies where it was expected. */
export const typingSlip: SlipRule = {
  name: "typing slip",
  formula:
    "the value with two neighbouring digits exchanged, its sign turned, or its decimal point moved by one or two places, less the expected value",
  threshold: "within three standard uncertainties, while the value as typed is beyond doubt",
  falseAlarmRate,
  look: ({ readings, unit, typedIn = unit }) =>
    judgeEach(readings, "repeats, an earlier value or a prediction of a reading", (fact, times) => {
      if (!isBeyondDoubt(fact.difference, falseAlarmRate, times)) return undefined;
      const reach = 3 * fact.difference.standardUncertainty + 1e-9;
      const { added = 0 } = fact;
      const fitting = [...retyped(fact.value - added, typedIn)]
        .map(({ value, what }) => ({ value: value + added, what }))
        .filter(({ value }) => Math.abs(value - fact.expected) < reach)
        .sort((a, b) => Math.abs(a.value - fact.expected) - Math.abs(b.value - fact.expected))[0];
      if (fitting === undefined) return undefined;
      return {
        at: fact.at,
        evidence: `${fact.name} is ${lengthText(fact.value - added, unit)}, ${signedText(fact.difference.value, unit)} beside ${fact.expectedBy}; with ${fitting.what} undone it is ${lengthText(fitting.value - added, unit)}`,
        beyond:
          chanceByDoubt(fact.difference) === 0 && fact.difference.standardUncertainty === 0
            ? Number.POSITIVE_INFINITY
            : beyondDoubt(fact.difference),
        suggests: `${fitting.what} may have slipped in when it was typed`,
        deciding: "read the display at that place once more",
      };
    }),
};

/** What two digits in the wrong order are called. */
export const exchange = "an exchange of two digits";

/** What a value may have been before one slip of typing; as it was typed, in the frame in which it was read. */
export function* retyped(millimetres: number, unit: "mm" | "inch"): Generator<{ readonly value: number; readonly what: string }> {
  const [scale, decimals] = unit === "inch" ? [millimetresPerInch, 4] : [1, 3];
  const text = formatFixed(millimetres / scale, decimals);
  const seen = new Set<string>([text]);
  yield { value: -millimetres, what: "a dropped or added minus" };
  for (const factor of [10, 100, 0.1, 0.01]) yield { value: millimetres * factor, what: "a moved decimal point" };
  for (let i = 0; i < text.length; i++) {
    // The next digit, over the decimal point where it stands between.
    const next = text[i + 1] === "." ? i + 2 : i + 1;
    const [a, b] = [text[i], text[next]];
    if (a === undefined || b === undefined || !/\d/.test(a) || !/\d/.test(b)) continue;
    const exchanged = `${text.slice(0, i)}${b}${text.slice(i + 1, next)}${a}${text.slice(next + 1)}`;
    if (seen.has(exchanged)) continue;
    seen.add(exchanged);
    yield { value: Number(exchanged) * scale, what: exchange };
  }
}
