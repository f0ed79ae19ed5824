import type { Distribution } from "../uncertainty/distribution.ts";
import { normalDiscChance } from "../uncertainty/normalDiscChance.ts";
import { integrate } from "../uncertainty/special/integrate.ts";
import { normalQuantile } from "../uncertainty/special/normalQuantile.ts";
import { checkLimits, type Interval } from "./conformance.ts";

/** What becomes of items that are measured and judged: four chances that make 1 together (JCGM 106:2012, 9.1). */
export interface GlobalRisk {
  /** Chance that an item does not conform and is accepted all the same (JCGM 106:2012, 3.3.15). */
  readonly consumersRisk: number;
  /** Chance that an item conforms and is rejected all the same (JCGM 106:2012, 3.3.16). */
  readonly producersRisk: number;
  readonly conformingAccepted: number;
  readonly nonconformingRejected: number;
  /** Estimated bound of the absolute error of each. */
  readonly error: number;
}

/**
 * Global risks of a way of measuring and judging (JCGM 106:2012, 9.4 and 9.5): the chance of each true value by the process, times the chance
 * that its measured value is accepted, integrated over the values that conform and over those that do not (equations 17 to 20).
 *
 * The chance of acceptance comes from the distribution function of the measuring error, and the true values are taken by their chance
 * (the process's quantile), so that the one numerical integral is over a bounded function from 0 to 1, whatever the densities do; where
 * either is exactly known, there is none. Error about 1e-12 plus that of the distributions.
 *
 * @param process of the true values, before anything is measured
 * @param measuring of the error, measured less true value, the same for every true value; a mean other than 0 is a bias
 * @param tolerance values that conform; infinite where there is no limit
 * @param acceptance measured values that are accepted; may reach beyond the tolerance
 * @throws RangeError if limits are NaN or reversed
 */
export function globalRisk(process: Distribution, measuring: Distribution, tolerance: Interval, acceptance: Interval): GlobalRisk {
  checkLimits(tolerance);
  checkLimits(acceptance);
  if (process.standardDeviation === 0) return ofOneValue(process.mean, measuring, tolerance, acceptance);
  if (measuring.standardDeviation === 0) return measuredExactly(process, measuring.mean, tolerance, acceptance);

  const errors = chanceSteps.map((p) => measuring.quantile(p)).filter(Number.isFinite);
  const turns = [acceptance.lower, acceptance.upper].flatMap((limit) => errors.map((error) => limit - error));
  const acceptedAt = (value: number) => measuring.chanceWithin(acceptance.lower - value, acceptance.upper - value);
  return overTheProcess(process, tolerance, acceptedAt, turns, process.error + measuring.error);
}

/**
 * The same for the diameter used of a round zone: true points by the process, measured with a normal error that is alike and independent along both
 * axes, accepted up to a diameter. The measured distance of a point then has Rice's distribution, whichever way it is off.
 *
 * @param process of the diameters used
 * @param standardUncertainty of a measured coordinate, above 0, in the unit of the diameters
 * @param zone diameter that conforms; @param acceptance measured diameter up to which is accepted, at least 0
 */
export function roundGlobalRisk(process: Distribution, standardUncertainty: number, zone: number, acceptance: number): GlobalRisk {
  const variance = standardUncertainty * standardUncertainty;
  const acceptedAt = (used: number) => normalDiscChance([used / 2, 0], [variance, 0, variance], acceptance / 2);
  // Of a distance, a normal error is the most that it can be off.
  const errors = chanceSteps.flatMap((p) => (p > 0 && p < 1 ? [2 * standardUncertainty * normalQuantile(p)] : []));
  const turns = errors.map((error) => Math.max(0, acceptance - error));
  const tolerance = { lower: Number.NEGATIVE_INFINITY, upper: zone };
  if (process.standardDeviation === 0) return ofOneChance(process.mean <= zone, acceptedAt(process.mean), discError);
  return overTheProcess(process, tolerance, acceptedAt, turns, process.error + discError);
}

/** Of normalDiscChance. */
const discError = 1e-11;

/** @param turns values of the process about which the chance of acceptance turns from all to nothing */
function overTheProcess(
  process: Distribution,
  tolerance: Interval,
  acceptedAt: (value: number) => number,
  turns: readonly number[],
  errorOfChances: number,
): GlobalRisk {
  const lower = process.cumulative(tolerance.lower);
  const upper = process.cumulative(tolerance.upper);
  const breaks = [...chanceSteps, ...turns.map((value) => process.cumulative(value)), lower, upper].sort((a, b) => a - b);
  const acceptedFrom = (from: number, to: number) =>
    integrate(
      (chance) => acceptedAt(process.quantile(chance)),
      breaks.filter((chance) => chance >= from && chance <= to),
      panelTolerance + errorOfChances,
    );
  const below = acceptedFrom(0, lower);
  const within = acceptedFrom(lower, upper);
  const above = acceptedFrom(upper, 1);
  const consumersRisk = below.value + above.value;
  return {
    ...fourChances(consumersRisk, upper - lower - within.value, within.value, lower + 1 - upper - consumersRisk),
    error: below.error + within.error + above.error + 4 * errorOfChances,
  };
}

/** Absolute; some dozens of panels make the whole. */
const panelTolerance = 1e-13;

function ofOneValue(value: number, measuring: Distribution, tolerance: Interval, acceptance: Interval): GlobalRisk {
  const accepted = measuring.chanceWithin(acceptance.lower - value, acceptance.upper - value);
  return ofOneChance(value >= tolerance.lower && value <= tolerance.upper, accepted, 2 * measuring.error);
}

function ofOneChance(conforms: boolean, accepted: number, error: number): GlobalRisk {
  return { ...(conforms ? fourChances(0, 1 - accepted, accepted, 0) : fourChances(accepted, 0, 0, 1 - accepted)), error };
}

function measuredExactly(process: Distribution, bias: number, tolerance: Interval, acceptance: Interval): GlobalRisk {
  const lower = acceptance.lower - bias;
  const upper = acceptance.upper - bias;
  const conforming = process.chanceWithin(tolerance.lower, tolerance.upper);
  const accepted = process.chanceWithin(lower, upper);
  const both = process.chanceWithin(Math.max(tolerance.lower, lower), Math.min(tolerance.upper, upper));
  return { ...fourChances(accepted - both, conforming - both, both, 1 - conforming - accepted + both), error: 4 * process.error };
}

/** Differences and sums of chances may step over 0 and 1 by their rounding. */
function fourChances(
  consumersRisk: number,
  producersRisk: number,
  conformingAccepted: number,
  nonconformingRejected: number,
): Omit<GlobalRisk, "error"> {
  const within = (chance: number) => Math.min(1, Math.max(0, chance));
  return {
    consumersRisk: within(consumersRisk),
    producersRisk: within(producersRisk),
    conformingAccepted: within(conformingAccepted),
    nonconformingRejected: within(nonconformingRejected),
  };
}

/** Dense towards both ends, where a quantile runs away. */
const chanceSteps = [0, 1e-9, 1e-6, 1e-3, 0.02, 0.2, 0.5, 0.8, 0.98, 1 - 1e-3, 1 - 1e-6, 1 - 1e-9, 1];
