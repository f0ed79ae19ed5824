import { isAbout, judgeWidths, radiiFalseAlarms } from "../internals/inRadii.ts";
import type { SlipRule } from "../slipRule.ts";

/** Rule 2. Without the radius an outside width is two radii too large. A sign that is wrong on one side looks the same until a third touch is there (rule 4). */
export const radiusLeftOut: SlipRule = {
  name: "radius not applied",
  formula: "(width touched - width known) / r is +2 outside, -2 inside",
  threshold: "within 0.1 of it, and beyond doubt",
  falseAlarmRate: radiiFalseAlarms,
  look: (facts) =>
    judgeWidths(facts, ({ tool, faces }, inRadii) => {
      const of = inRadii.find(({ radii }) => isAbout(radii, 2));
      if (of === undefined) return undefined;
      return {
        of,
        finding: {
          suggests: `the radius of "${tool}" may be missing from "${faces[0]?.touch}" and "${faces[1]?.touch}", or its sign may be wrong at one of them`,
          deciding: `a third touch of "${faces[0]?.element}": where the radius is missing on both sides the face is off by one radius, where a sign is wrong by two or not at all`,
        },
      };
    }),
};
