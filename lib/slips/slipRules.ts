import { absoluteForShift } from "./rules/absoluteForShift.ts";
import { blockForgotten } from "./rules/blockForgotten.ts";
import { correctionWrong } from "./rules/correctionWrong.ts";
import { diameterForRadius } from "./rules/diameterForRadius.ts";
import { faceIsNoDatum } from "./rules/faceIsNoDatum.ts";
import { inchForMillimetre } from "./rules/inchForMillimetre.ts";
import { mixedApproaches } from "./rules/mixedApproaches.ts";
import { nominalHalved } from "./rules/nominalHalved.ts";
import { notSeated } from "./rules/notSeated.ts";
import { notVerifiedSince } from "./rules/notVerifiedSince.ts";
import { offsetAppliedTwice } from "./rules/offsetAppliedTwice.ts";
import { overAdjusting } from "./rules/overAdjusting.ts";
import { poorBoreCentre } from "./rules/poorBoreCentre.ts";
import { radiusLeftOut } from "./rules/radiusLeftOut.ts";
import { readAfterRetract } from "./rules/readAfterRetract.ts";
import { roughFaceInMiddle } from "./rules/roughFaceInMiddle.ts";
import { shortBaseline } from "./rules/shortBaseline.ts";
import { signWrongOnBothSides } from "./rules/signWrongOnBothSides.ts";
import { signWrongOnOneSide } from "./rules/signWrongOnOneSide.ts";
import { skewIgnored } from "./rules/skewIgnored.ts";
import { staleShift } from "./rules/staleShift.ts";
import { totalReadingUsed } from "./rules/totalReadingUsed.ts";
import { turnedOverOtherwise } from "./rules/turnedOverOtherwise.ts";
import { typingSlip } from "./rules/typingSlip.ts";
import { unlikeOppositeTouches } from "./rules/unlikeOppositeTouches.ts";
import { wrongRegister } from "./rules/wrongRegister.ts";
import { wrongToolLength } from "./rules/wrongToolLength.ts";
import { zeroTooOld } from "./rules/zeroTooOld.ts";
import type { SlipRule } from "./slipRule.ts";

/** All rules, in the order of a setup: the touches, the zero, what is typed, the run. */
export const slipRules: readonly SlipRule[] = [
  diameterForRadius,
  radiusLeftOut,
  signWrongOnBothSides,
  signWrongOnOneSide,
  inchForMillimetre,
  wrongToolLength,
  blockForgotten,
  offsetAppliedTwice,
  staleShift,
  wrongRegister,
  roughFaceInMiddle,
  faceIsNoDatum,
  nominalHalved,
  turnedOverOtherwise,
  unlikeOppositeTouches,
  mixedApproaches,
  notSeated,
  skewIgnored,
  shortBaseline,
  poorBoreCentre,
  totalReadingUsed,
  zeroTooOld,
  correctionWrong,
  overAdjusting,
  typingSlip,
  notVerifiedSince,
  absoluteForShift,
  readAfterRetract,
];
