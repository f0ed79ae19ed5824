// How a zero drifts while the machine warms, and how long it lasts.

export { fitWarmUp, type TimedReading, type WarmUpCurve } from "./warmUpCurve.ts";
export { assuredBefore, bestBefore, driftSince, reZeroPlan, warmEnoughAfter } from "./zeroLife.ts";
