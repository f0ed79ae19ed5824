import type { Distribution } from "../distribution.ts";

/** Adds the checks, the coverage intervals and the chance between limits to what makes a continuous distribution. */
export function completeDistribution(core: Omit<Distribution, "interval" | "chanceWithin">, symmetricIsShortest: boolean): Distribution {
  const quantile = (p: number) => {
    if (!(p >= 0 && p <= 1)) throw new RangeError(`p: expected 0 to 1, got ${p}`);
    return core.quantile(p);
  };
  return {
    ...core,
    quantile,
    interval(probability, kind) {
      if (!(probability > 0 && probability < 1)) throw new RangeError(`probability: expected above 0 and below 1, got ${probability}`);
      const outside = 1 - probability;
      const below = kind === "symmetric" || symmetricIsShortest ? outside / 2 : shortestStart(quantile, outside);
      return [quantile(below), quantile(1 - (outside - below))];
    },
    chanceWithin: (lower, upper) => (lower <= upper ? Math.max(0, core.cumulative(upper) - core.cumulative(lower)) : 0),
  };
}

/** The chance left below the shortest interval that leaves `outside` in all: a scan, then golden-section search (JCGM 101:2008, 5.5.3 and 7.7.4). */
function shortestStart(quantile: (p: number) => number, outside: number): number {
  const lengthFrom = (below: number) => quantile(1 - (outside - below)) - quantile(below);
  const lengthAt = Array.from({ length: scanSteps + 1 }, (_, k) => lengthFrom((outside * k) / scanSteps));
  const best = lengthAt.indexOf(Math.min(...lengthAt));
  let low = (outside * Math.max(0, best - 1)) / scanSteps;
  let high = (outside * Math.min(scanSteps, best + 1)) / scanSteps;
  let left = high - (high - low) * goldenRatio;
  let right = low + (high - low) * goldenRatio;
  let [fromLeft, fromRight] = [lengthFrom(left), lengthFrom(right)];
  for (let step = 0; step < goldenSteps; step += 1) {
    if (fromLeft <= fromRight) {
      [high, right, fromRight] = [right, left, fromLeft];
      left = high - (high - low) * goldenRatio;
      fromLeft = lengthFrom(left);
    } else {
      [low, left, fromLeft] = [left, right, fromRight];
      right = low + (high - low) * goldenRatio;
      fromRight = lengthFrom(right);
    }
  }
  const [inside, length] = fromLeft <= fromRight ? [left, fromLeft] : [right, fromRight];
  // The shortest may begin at the very end of the distribution, which the search only comes near to.
  const [fromStart, toEnd] = [lengthAt[0] as number, lengthAt[scanSteps] as number];
  if (fromStart <= Math.min(toEnd, length)) return 0;
  return toEnd <= length ? outside : inside;
}

const scanSteps = 24;
/** (√5 - 1) / 2. */
const goldenRatio = 0.6180339887498949;
/** 0.618²⁵ < 1e-5 of a scan step: the length is flat there to 1e-10. */
const goldenSteps = 25;
