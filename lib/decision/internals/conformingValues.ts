import { failure, type Outcome, success } from "../../base/outcome.ts";
import type { Distribution } from "../../uncertainty/distribution.ts";
import type { Interval } from "../conformance.ts";

/**
 * The measured values that conform with at least the chance `probability`, for a measurement whose error is distributed alike wherever
 * the value lies: `knowledge` moved along. Undefined if there are none.
 *
 * One limit alone gives a quantile (JCGM 106:2012, 8.3.2.3 with any distribution); two limits are closer together than either alone, and
 * each end is then found between the most favourable value and the end that its limit alone would give.
 *
 * @param probability above 0 and below 1
 * @returns a problem if such values lie in several places, as they may where the error prefers its extremes
 */
export function conformingValues(knowledge: Distribution, limits: Interval, probability: number): Outcome<Interval | undefined> {
  const { mean, standardDeviation } = knowledge;
  // A value that is known exactly conforms up to the limits themselves, to the last bit.
  if (standardDeviation === 0) return success(limits);
  const lower = limits.lower + (mean - knowledge.quantile(1 - probability));
  const upper = limits.upper + (mean - knowledge.quantile(probability));
  if (!(lower <= upper)) return success(undefined);
  if (lower === Number.NEGATIVE_INFINITY || upper === Number.POSITIVE_INFINITY) return success({ lower, upper });
  return betweenBoth(
    (value) => knowledge.chanceWithin(limits.lower - (value - mean), limits.upper - (value - mean)) - probability,
    { lower, upper },
    knowledge.error,
  );
}

/** @param excess of the chance over what is wanted, whose zeros are the ends */
function betweenBoth(excess: (value: number) => number, { lower, upper }: Interval, error: number): Outcome<Interval | undefined> {
  const slack = 2 * error + rounding;
  const valueAt = (step: number) => (step === scanSteps ? upper : lower + ((upper - lower) * step) / scanSteps);
  const found = Array.from({ length: scanSteps + 1 }, (_, step) => excess(valueAt(step)));
  const best = found.reduce((most, value, step) => (value > (found[most] as number) ? step : most), 0);
  const peak = highest(excess, valueAt(Math.max(0, best - 1)), valueAt(Math.min(scanSteps, best + 1)), valueAt(best));
  if (!(excess(peak) >= -slack)) return success(undefined);
  const good = found.flatMap((value, step) => (value >= -slack ? [step] : []));
  const first = good[0];
  const last = good.at(-1);
  if (first === undefined || last === undefined) {
    return success({
      lower: crossing(excess, peak, valueAt(Math.max(0, best - 1))),
      upper: crossing(excess, peak, valueAt(Math.min(scanSteps, best + 1))),
    });
  }
  if (last - first + 1 !== good.length) {
    return failure({
      at: "",
      what: "the values that could be accepted lie in several places, because the measuring error prefers its extremes",
      remedy: "use a rule whose guard band is a multiple of the expanded uncertainty",
    });
  }
  return success({
    lower: first === 0 ? lower : crossing(excess, valueAt(first), valueAt(first - 1)),
    upper: last === scanSteps ? upper : crossing(excess, valueAt(last), valueAt(last + 1)),
  });
}

/** Both chances of a symmetric pair carry a few roundings. */
const rounding = 1e-13;
/** Finds a dip wider than a thirtieth; errors without two peaks have none (Ibragimov 1956: a box, being log-concave, adds no peak). */
const scanSteps = 32;

/** Golden-section search between two neighbours of the best of the scan. */
function highest(excess: (value: number) => number, from: number, to: number, start: number): number {
  let low = from;
  let high = to;
  let best = start;
  let most = excess(start);
  for (let step = 0; step < goldenSteps; step += 1) {
    const third = (high - low) * goldenRatio;
    const left = high - third;
    const right = low + third;
    const atLeft = excess(left);
    const atRight = excess(right);
    if (atLeft > most) [best, most] = [left, atLeft];
    if (atRight > most) [best, most] = [right, atRight];
    if (atLeft >= atRight) high = right;
    else low = left;
  }
  return best;
}

/** (√5 - 1) / 2. */
const goldenRatio = 0.6180339887498949;
/** 0.618⁴⁰ < 1e-8 of two scan steps: a peak is flat there to the rounding. */
const goldenSteps = 40;

/** By bisection, from a value that conforms towards one that does not; the answer conforms. */
function crossing(excess: (value: number) => number, conforming: number, other: number): number {
  let inside = conforming;
  let outside = other;
  for (let step = 0; step < bisectionSteps; step += 1) {
    const middle = inside + (outside - inside) / 2;
    if (middle === inside || middle === outside) break;
    if (excess(middle) >= 0) inside = middle;
    else outside = middle;
  }
  return inside;
}

/** One for every bit of a double. */
const bisectionSteps = 60;
