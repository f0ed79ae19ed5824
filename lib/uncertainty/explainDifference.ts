import type { Budget } from "./budget.ts";
import type { Source } from "./source.ts";
import { standardUncertaintyOf } from "./sourceDistribution.ts";

/** Why a result came out differently from another computation of it. */
export interface ExplainedDifference {
  /** After less before, in the unit of the result. */
  readonly difference: number;
  /** What moved estimates of sources account for, largest effect first. */
  readonly moved: readonly MovedSource[];
  /** The rest: readings, nominal sizes, another choice of touches; and what the model's curve adds. */
  readonly remainder: number;
  /** After less before. */
  readonly varianceDifference: number;
  /** By source: what it adds to the variance after, less before; largest change first. They add up to `varianceDifference`. */
  readonly variances: readonly VarianceChange[];
}

export interface MovedSource {
  readonly source: Source;
  /** Estimate after less before, in the unit of the source. */
  readonly shift: number;
  /** What it does to the result. */
  readonly effect: number;
}

export interface VarianceChange {
  readonly source: Source;
  readonly before: number;
  readonly after: number;
}

/**
 * The difference of two computations of one result, by source. Sources are the same where their ids are. A source that moved from x₁ to x₂ accounts
 * for (c₁ + c₂)/2 · (x₂ - x₁) with its sensitivities before and after: the trapezoidal rule, exact for results up to the second order in one
 * source. The variance is a sum over sources (JCGM 100:2008, 5.1.2) in each, so its parts are simply compared.
 */
export function explainDifference(before: Budget, after: Budget): ExplainedDifference {
  const pairs = pairSources(before, after);
  const moved = pairs
    .flatMap(({ first, second }): MovedSource[] => {
      if (first === undefined || second === undefined || first.source.estimate === second.source.estimate) return [];
      const shift = second.source.estimate - first.source.estimate;
      return [{ source: second.source, shift, effect: ((first.sensitivity + second.sensitivity) / 2) * shift }];
    })
    .filter(({ effect }) => effect !== 0)
    .sort((a, b) => Math.abs(b.effect) - Math.abs(a.effect) || (a.source.id < b.source.id ? -1 : 1));
  const variances = pairs
    .map(({ first, second }) => ({ source: (second ?? first)?.source as Source, before: varianceOf(first), after: varianceOf(second) }))
    .filter((change) => change.before !== change.after)
    .sort((a, b) => Math.abs(b.after - b.before) - Math.abs(a.after - a.before) || (a.source.id < b.source.id ? -1 : 1));
  const difference = after.value - before.value;
  return {
    difference,
    moved,
    remainder: difference - moved.reduce((total, { effect }) => total + effect, 0),
    varianceDifference: after.standardUncertainty ** 2 - before.standardUncertainty ** 2,
    variances,
  };
}

interface Part {
  readonly source: Source;
  readonly sensitivity: number;
}

/** Every source of either, with its part in both. */
function pairSources(before: Budget, after: Budget): { readonly first?: Part; readonly second?: Part }[] {
  const pairs = new Map<string, { first?: Part; second?: Part }>();
  partsOf(before).forEach((part) => {
    pairs.set(part.source.id, { first: part });
  });
  partsOf(after).forEach((part) => {
    pairs.set(part.source.id, { ...pairs.get(part.source.id), second: part });
  });
  return [...pairs.values()];
}

function partsOf({ sources, sensitivities }: Budget): Part[] {
  return sources.map((source, i) => ({ source, sensitivity: sensitivities[i] as number }));
}

function varianceOf(part: Part | undefined): number {
  return part === undefined ? 0 : (part.sensitivity * standardUncertaintyOf(part.source.distribution)) ** 2;
}
