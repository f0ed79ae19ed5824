import type { Characteristic } from "../part/part.ts";
import { type Stack, stackOf } from "../tolerance/stack.ts";
import { scaledBudget } from "../uncertainty/budget.ts";
import type { Source } from "../uncertainty/source.ts";
import { standardUncertaintyOf } from "../uncertainty/sourceDistribution.ts";

/** A characteristic with the stack that it has under one strategy in one view. */
export interface Judged {
  readonly characteristic: Characteristic;
  readonly stack: Stack;
}

/** What can be better or worse known by itself: a source, or the two coordinates of a point within a circle, which have one size. */
export interface SingleDoubt {
  readonly label: string;
  readonly sources: readonly Source[];
}

/** The single doubts behind some stacks, in the order in which the stacks first meet them. */
export function singleDoubts(judged: readonly Judged[]): SingleDoubt[] {
  const sources = new Set(judged.flatMap(({ stack }) => stack.effects.map(({ source }) => source)));
  const doubts = new Map<string, { label: string; sources: Source[] }>();
  for (const source of sources) {
    const key = source.circle === undefined ? `source ${source.id}` : `circle ${source.circle}`;
    const doubt = doubts.get(key) ?? { label: source.circle ?? source.label, sources: [] };
    doubt.sources.push(source);
    doubts.set(key, doubt);
  }
  return [...doubts.values()];
}

/** How large one doubt may be, everything else staying as it is, before a wanted chance is missed. */
export interface Allowance {
  readonly doubt: SingleDoubt;
  /**
   * As many times as large as it is now: below 1 it has to shrink, 0 if even that would not do, `Infinity` if no size that was
   * tried (a million times as large) misses the chance.
   */
  readonly factor: number;
  /** Standard uncertainty of each of its sources at that size, in their own unit. */
  readonly standardUncertainty: number;
  /** The characteristic that sets the bound; undefined where nothing does. */
  readonly boundBy: string | undefined;
  /** Smallest chance of the characteristics that follow it if it were known exactly. */
  readonly chanceWithout: number;
}

const largestFactor = 1e6;
/** Relative, of the factor: finer than two digits are shown. */
const resolution = 1e-4;
/** From one size to the next on the way up: a bound between two sizes of which both miss the chance is found at the first. */
const stride = 1.5;

/**
 * The largest size of one doubt for which every characteristic that follows it keeps the wanted chance of being within its tolerance: the
 * first size, from nothing upwards, at which one of them misses it. Chances are those of the linearised deviations (`linearChance`,
 * `radialChance`), which scale exactly with the source.
 *
 * @param wanted chance of each characteristic, between 0.5 and 1: below one half, a larger doubt may help a result that is out
 * @throws RangeError for another chance
 */
export function allowedDoubt(judged: readonly Judged[], doubt: SingleDoubt, wanted: number): Allowance {
  if (!(wanted > 0.5 && wanted < 1)) throw new RangeError(`wanted: expected a chance above 0.5 and below 1, got ${wanted}`);
  const { sources } = doubt;
  const following = judged.filter(({ stack }) => stack.effects.some(({ source }) => sources.includes(source)));
  const chanceAt = (each: Judged, factor: number) => chanceWith(each, (source) => (sources.includes(source) ? factor : 1));
  const standardUncertainty = Math.max(0, ...sources.map(({ distribution }) => standardUncertaintyOf(distribution)));
  const answer = (factor: number, boundBy: string | undefined): Allowance => ({
    doubt,
    factor,
    standardUncertainty: factor === 0 ? 0 : factor * standardUncertainty,
    boundBy,
    chanceWithout: following.reduce((least, each) => Math.min(least, chanceAt(each, 0)), 1),
  });
  const hopeless = following.find((each) => chanceAt(each, 0) < wanted);
  if (hopeless) return answer(0, hopeless.characteristic.id);

  let bound = answer(Number.POSITIVE_INFINITY, undefined);
  for (const each of following) {
    const factor = firstMiss((size) => chanceAt(each, size) >= wanted, Math.min(bound.factor, largestFactor));
    if (factor < bound.factor) bound = answer(factor, each.characteristic.id);
  }
  return bound;
}

/** The chance of a characteristic with every source as many times as large as `factorOf` says. */
export function chanceWith({ characteristic, stack }: Judged, factorOf: (source: Source) => number): number {
  return scaledStack({ characteristic, stack }, factorOf).chance;
}

/** The stack with every source as many times as large as `factorOf` says. */
export function scaledStack({ characteristic, stack }: Judged, factorOf: (source: Source) => number): Stack {
  return stackOf(
    characteristic,
    stack.components.map((component) => scaledBudget(component, factorOf)),
  );
}

/** The largest size up to which all is kept, to `resolution`; `Infinity` if `most` is kept. Nothing is known to be kept. */
function firstMiss(isKept: (size: number) => boolean, most: number): number {
  let [kept, missed] = [0, 1];
  while (isKept(missed)) {
    if (missed >= most) return Number.POSITIVE_INFINITY;
    kept = missed;
    missed = Math.min(kept * stride, Math.max(most, kept));
  }
  while (missed - kept > resolution * missed) {
    const middle = (kept + missed) / 2;
    if (isKept(middle)) kept = middle;
    else missed = middle;
    if (missed < 1e-9) return 0;
  }
  return kept;
}
