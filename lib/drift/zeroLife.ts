import { studentQuantile } from "../uncertainty/special/studentT.ts";
import { driftAt, type WarmUpCurve } from "./warmUpCurve.ts";

/** How far a zero that was set at one time has moved at a later one. */
export interface DriftSince {
  /** mm, signed. */
  readonly drift: number;
  /** mm */
  readonly standardUncertainty: number;
}

/**
 * dz(t) - dz(t₀) = A · (exp(-t₀/τ) - exp(-t/τ)); its doubt is that of rise and time constant together.
 *
 * @param setAt minutes after the start at which the zero was set; @param minutes the later time
 */
export function driftSince(curve: WarmUpCurve, setAt: number, minutes: number): DriftSince {
  const { rise, timeConstant, covariance } = curve;
  const drift = driftAt(curve, minutes) - driftAt(curve, setAt);
  const byRise = driftAt({ rise: 1, timeConstant }, minutes) - driftAt({ rise: 1, timeConstant }, setAt);
  const slope = (at: number) => (at / timeConstant ** 2) * Math.exp(-at / timeConstant);
  const byTime = -rise * (slope(minutes) - slope(setAt));
  const [, , , , riseVariance = 0, riseByTime = 0, , , timeVariance = 0] = covariance.entries;
  return {
    drift,
    standardUncertainty: Math.sqrt(Math.max(0, byRise ** 2 * riseVariance + 2 * byRise * byTime * riseByTime + byTime ** 2 * timeVariance)),
  };
}

/**
 * Minutes after the start at which a zero set at `setAt` has moved by `allowed`, by the curve itself; `Infinity` where it never does.
 * t = -τ · ln(exp(-t₀/τ) - allowed / |A|).
 *
 * @param allowed mm, above 0
 */
export function bestBefore({ rise, timeConstant }: WarmUpCurve, setAt: number, allowed: number): number {
  const left = Math.exp(-setAt / timeConstant) - allowed / Math.abs(rise);
  return left > 0 ? -timeConstant * Math.log(left) : Number.POSITIVE_INFINITY;
}

/**
 * The same by the curve and its doubt: until then the drift is at most `allowed` with the given probability (one-sided, by Student's t on the
 * curve's degrees of freedom), to a hundredth of a minute; never later than the readings reach, since nothing is known of what comes after them,
 * except where what is still to come keeps within it altogether.
 *
 * @param until minutes of the last reading
 */
export function assuredBefore(curve: WarmUpCurve, setAt: number, allowed: number, until: number, probability = 0.95): number {
  const factor = studentQuantile(probability, curve.degreesOfFreedom);
  const within = (minutes: number) => {
    const { drift, standardUncertainty } = driftSince(curve, setAt, minutes);
    return Math.abs(drift) + factor * standardUncertainty <= allowed;
  };
  const steps = 1000;
  const last = Math.max(until, setAt);
  const at = (step: number) => setAt + ((last - setAt) * step) / steps;
  for (let step = 1; step <= steps; step++) {
    if (within(at(step))) continue;
    let [good, bad] = [at(step - 1), at(step)];
    while (bad - good > 0.01) {
      const middle = (good + bad) / 2;
      if (within(middle)) good = middle;
      else bad = middle;
    }
    return good;
  }
  return within(Number.MAX_VALUE) ? Number.POSITIVE_INFINITY : last;
}

/** Minutes of warm-up after which one zero lasts: what is still to come is no more than `allowed`. */
export function warmEnoughAfter({ rise, timeConstant }: WarmUpCurve, allowed: number): number {
  return Math.max(0, timeConstant * Math.log(Math.abs(rise) / allowed));
}

/** From one setting of the zero to the next. */
export interface ZeroSpan {
  /** Minutes after the start. */
  readonly from: number;
  readonly to: number;
  /** Whole cycles that fit. */
  readonly parts: number;
}

/**
 * When to set the zero again while the machine warms, so that no part sees more drift than `allowed`. The last zero, set where the last span ends,
 * lasts for good.
 *
 * @param cycle minutes per part, above 0; @param horizon minutes after which nobody asks any more
 */
export function reZeroPlan(curve: WarmUpCurve, allowed: number, cycle: number, horizon: number): ZeroSpan[] {
  const spans: ZeroSpan[] = [];
  let from = 0;
  while (from < horizon && spans.length < mostSpans) {
    const to = bestBefore(curve, from, allowed);
    if (!(to < horizon)) break;
    spans.push({ from, to, parts: Math.floor((to - from) / cycle) });
    from = to;
  }
  return spans;
}

/** A plan of more is no plan. */
const mostSpans = 200;
