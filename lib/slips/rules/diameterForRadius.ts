import { isAbout, judgeWidths, radiiFalseAlarms } from "../internals/inRadii.ts";
import type { SlipRule } from "../slipRule.ts";

/**
 * Rule 1. An outside width that was worked out with the diameter is two true radii too small; told by the typed value, which is the diameter, one. With
 * the right radius typed the same two radii say that it was taken off twice: the readings already carry it.
 */
export const diameterForRadius: SlipRule = {
  name: "diameter used for the radius",
  formula: "(width touched - width known) / r is -2 outside, +2 inside; -1 and +1 when told by the typed diameter",
  threshold: "within 0.1 of it, and beyond doubt",
  falseAlarmRate: radiiFalseAlarms,
  look: (facts) =>
    judgeWidths(facts, ({ tool, faces }, inRadii) => {
      const [typed] = inRadii;
      const asDiameter = typed && isAbout(typed.radii, -1) ? typed : undefined;
      const of = asDiameter ?? inRadii.find(({ radii }) => isAbout(radii, -2));
      if (of === undefined) return undefined;
      return {
        of,
        finding: {
          suggests: asDiameter
            ? `the radius of "${tool}" may be its diameter`
            : `the radius of "${tool}" may have been taken off twice: by the diameter in its place, or because the readings of "${faces[0]?.touch}" and "${faces[1]?.touch}" already carry it`,
          deciding: `touch "${faces[0]?.element}" again with another tool: the radius of "${tool}" moves its face, another tool's does not`,
        },
      };
    }),
};
