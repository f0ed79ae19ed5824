import { isAbout, judgeWidths, radiiFalseAlarms } from "../internals/inRadii.ts";
import type { SlipRule } from "../slipRule.ts";

/** Rule 3. With both signs wrong a width is four radii off: too large where an outside one was taken for it, too small where an inside one was. */
export const signWrongOnBothSides: SlipRule = {
  name: "sign wrong on both sides",
  formula: "|(width touched - width known) / r| is 4",
  threshold: "within 0.1 of it, and beyond doubt",
  falseAlarmRate: radiiFalseAlarms,
  look: (facts) =>
    judgeWidths(facts, ({ side, faces }, inRadii) => {
      const of = inRadii.find(({ radii }) => isAbout(Math.abs(radii), 4));
      if (of === undefined) return undefined;
      return {
        of,
        finding: {
          suggests: `the metal may lie on the other side of "${faces[0]?.element}" and "${faces[1]?.element}" than stated: ${side === "outside" ? "the walls of a pocket taken for the outside of a block" : "the outside of a block taken for the walls of a pocket"}`,
          deciding: `look at which side of the tool the metal was at "${faces[0]?.touch}"`,
        },
      };
    }),
};
