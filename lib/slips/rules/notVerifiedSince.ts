import { judgeEach, type SlipRule } from "../slipRule.ts";

/** Rule 26. After a re-home, a crash, a moved fixture and the like a zero holds only once checks have confirmed it along every axis. */
export const notVerifiedSince: SlipRule = {
  name: "not verified since an event",
  formula: "events after which no check has agreed along some axis in question, or one disagrees",
  threshold: "any",
  // Each check is held to its own limits at 95 %: one of four is beyond them after every fifth event. It asks for a touch, no more.
  falseAlarmRate: 0.2,
  look: ({ events }) =>
    judgeEach(events, "what happened since the zero was set", ({ at, name, verifiedSince, voids, standing }) => {
      if (verifiedSince) return undefined;
      return {
        at,
        evidence: `since "${name}" ${standing}`,
        beyond: Number.POSITIVE_INFINITY,
        suggests: voids,
        deciding: "along every axis in question touch a face that the zero does not rest on, and compare with its prediction",
      };
    }),
};
