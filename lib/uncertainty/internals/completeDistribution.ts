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
  let best = 0;
  for (let k = 1; k <= scanSteps; k += 1) {
    if (lengthFrom((outside * k) / scanSteps) < lengthFrom((outside * best) / scanSteps)) best = k;
  }
  let low = (outside * Math.max(0, best - 1)) / scanSteps;
  let high = (outside * Math.min(scanSteps, best + 1)) / scanSteps;
  for (let step = 0; step < goldenSteps; step += 1) {
    const third = (high - low) * goldenRatio;
    if (lengthFrom(high - third) <= lengthFrom(low + third)) high = low + third;
    else low = high - third;
  }
  const middle = (low + high) / 2;
  // The shortest may begin at the very end of the distribution, which the search only comes near to.
  return [0, outside, middle].reduce((a, b) => (lengthFrom(b) < lengthFrom(a) ? b : a));
}

const scanSteps = 24;
/** (√5 - 1) / 2. */
const goldenRatio = 0.6180339887498949;
/** 0.618³⁰ < 1e-6 of a scan step: the length is flat there to 1e-12. */
const goldenSteps = 30;
