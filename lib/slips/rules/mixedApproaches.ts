import { figureText, lengthText } from "../internals/words.ts";
import { judgeEach, type SlipRule } from "../slipRule.ts";

/** Of the zone (shop default). */
const mostShare = 0.2;

/** Rule 16. Lost motion b takes (b/2)·|direction of working - mean direction of the touches| (F10). */
export const mixedApproaches: SlipRule = {
  name: "opposite approaches mixed",
  formula: "(b/2) · |d of working - mean d of the touches|",
  threshold: "a tenth of the narrowest zone along the axis: 0.2 of its half",
  falseAlarmRate: 0,
  look: ({ approaches, unit }) =>
    judgeEach(
      approaches?.filter(({ zone }) => Number.isFinite(zone)),
      "lost motion along an axis with a toleranced characteristic",
      ({ at, axis, lostMotion, use, touched, characteristic, zone }) => {
        const error = (lostMotion / 2) * Math.max(...(use === 0 ? [1, -1] : [use]).map((direction) => Math.abs(direction - touched)));
        const share = (2 * error) / zone;
        if (!(share > mostShare)) return undefined;
        return {
          at,
          evidence: `lost motion of ${lengthText(lostMotion, unit)} along ${axis} may move the zero by ${lengthText(error, unit)}, ${figureText(100 * share)} % of "${characteristic}"`,
          beyond: share / mostShare,
          suggests: "touches and last moves before cutting may come from different sides",
          deciding: `come in from the side of the last move before cutting when ${axis} is touched`,
        };
      },
    ),
};
