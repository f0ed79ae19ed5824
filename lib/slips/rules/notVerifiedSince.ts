import { judgeEach, type SlipRule } from "../slipRule.ts";

/** Rule 26. After a re-home, a crash, a moved fixture and the like a zero holds only once a check has confirmed it. */
export const notVerifiedSince: SlipRule = {
  name: "not verified since an event",
  formula: "events that are newer than the last check that agreed",
  threshold: "any",
  falseAlarmRate: undefined,
  look: ({ events }) =>
    judgeEach(events, "what happened since the zero was set", ({ at, name, verifiedSince, voids }) => {
      if (verifiedSince) return undefined;
      return {
        at,
        evidence: `"${name}" is newer than the last check that agreed`,
        beyond: Number.POSITIVE_INFINITY,
        suggests: voids,
        deciding: "touch a face that the zero does not rest on, and compare with its prediction",
      };
    }),
};
