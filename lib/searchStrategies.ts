import type { Outcome } from "./base/outcome.ts";
import { candidateStrategies } from "./datum/candidateStrategies.ts";
import type { PartLocation } from "./datum/locatePart.ts";
import { type StrategyFrame, solveByReadings, solverInTheBatch, zeroFound } from "./datum/solveStrategy.ts";
import type { Strategy } from "./datum/strategy.ts";
import type { FoundStrategy, StrategySearch } from "./decision/improvement.ts";
import { evaluateStrategies } from "./evaluateSetup.ts";
import type { Characteristic } from "./part/part.ts";
import { type Deviation, deviationsInTheBatch, deviationsOfThisPart, type View } from "./tolerance/deviations.ts";
import { type Stack, stackOf } from "./tolerance/stack.ts";
import { budgetsTogether } from "./uncertainty/budget.ts";
import type { Draws } from "./uncertainty/draws.ts";
import { standardUncertaintyOf } from "./uncertainty/sourceDistribution.ts";

/** Chances are good to a few parts in a million (see radialChance): less is no gain. */
const numerical = 1e-5;
/** Of a deviation and of a standard uncertainty's part in it, mm or radians: what is nothing beside any tolerance. */
const unnoticed = 1e-10;
/** Strategies of one step: together they are one computation, and a step takes some hundredths of a second. */
const together = 25;

/**
 * Tries every usual strategy that the touches of a setup allow (`candidateStrategies`) for the same part zero, and keeps the few that are best for
 * their number of touches. Step by step, so that a caller can show progress, or stop.
 *
 * Candidates are sifted in one view by the least chance that their single chances leave for all together (Bonferroni: 1 - Σ(1 - p)); those kept
 * are evaluated like any other strategy.
 */
export function* searchStrategies(
  location: PartLocation,
  like: Strategy,
  view: View,
  draws: Draws,
): Generator<StrategySearch, StrategySearch> {
  const { strategies, isCutShort } = candidateStrategies(location, like);
  const candidates = strategies.length;
  const sieve = new Sieve(location, view);
  let tried = 0;
  while (tried < candidates) {
    const step = strategies.slice(tried, tried + together);
    sieve.sift(step);
    tried += step.length;
    if (tried < candidates) yield { tried, candidates, determined: sieve.determined, isCutShort, best: [] };
  }
  const { determined, kept } = sieve;
  return { tried, candidates, determined, isCutShort, best: worthTheirTouches(kept, location, view, draws) };
}

interface Judged {
  readonly strategy: Strategy;
  /** In the order of the characteristics. */
  readonly found: readonly Deviation[];
}

/** Keeps the one strategy that is best for its number of touches, by the least chance that its single chances leave for all together. */
class Sieve {
  /** Strategies that find part zero along every axis, and under which every characteristic can be judged. */
  determined = 0;
  private readonly best = new Map<number, { readonly strategy: Strategy; readonly least: number }>();
  private readonly location: PartLocation;
  private readonly view: View;
  private readonly inTheBatch: ReturnType<typeof solverInTheBatch>;
  private readonly characteristics: readonly Characteristic[];
  private readonly chances = new Map<string, number>();

  constructor(location: PartLocation, view: View) {
    this.location = location;
    this.view = view;
    this.inTheBatch = solverInTheBatch(location);
    this.characteristics = location.setup.part.characteristics;
  }

  /** Fewest touches first. */
  get kept(): Strategy[] {
    return [...this.best.values()].map(({ strategy }) => strategy).sort((a, b) => a.touches.length - b.touches.length);
  }

  sift(strategies: readonly Strategy[]): void {
    const judged = strategies.flatMap((strategy) => this.judge(strategy));
    this.determined += judged.length;
    const budgetOf = budgetsTogether(judged.flatMap(({ found }) => found.flat()));
    for (const { strategy, found } of judged) {
      const count = strategy.touches.length;
      const stacks = found.map((deviation, i) => stackOf(this.characteristics[i] as Characteristic, deviation.map(budgetOf)));
      const least = this.leastAbove(this.best.get(count)?.least ?? Number.NEGATIVE_INFINITY, stacks);
      if (least !== undefined) this.best.set(count, { strategy, least });
    }
  }

  private judge(strategy: Strategy): Judged[] {
    const found = this.deviationsOf(strategy)?.flatMap((deviation) => (deviation.ok ? [deviation.value] : []));
    return found?.length === this.characteristics.length ? [{ strategy, found }] : [];
  }

  private deviationsOf(strategy: Strategy): readonly Outcome<Deviation>[] | undefined {
    if (this.view === "batch") {
      const solved = this.inTheBatch(strategy);
      return solved.ok && isFound(solved.value) ? deviationsInTheBatch(solved.value, this.location) : undefined;
    }
    const solved = solveByReadings(strategy, this.location);
    return solved.ok && isFound(solved.value) ? deviationsOfThisPart(solved.value, this.location) : undefined;
  }

  /** The least chance 1 - Σ(1 - p); undefined, as soon as it is known, where that is no gain over another. */
  private leastAbove(other: number, stacks: readonly Stack[]): number | undefined {
    let least = 1;
    for (const stack of stacks) {
      least -= 1 - this.chanceOf(stack);
      if (!(least > other + numerical)) return undefined;
    }
    return least;
  }

  /** Another height of Z leaves the stacks along X and Y as they were, but for rounding. */
  private chanceOf(stack: Stack): number {
    const key = sameStack(stack);
    const chance = this.chances.get(key) ?? stack.chance;
    this.chances.set(key, chance);
    return chance;
  }
}

function isFound(solved: StrategyFrame): boolean {
  return zeroFound(solved).every(Boolean);
}

/** The same for stacks that differ by less than what is unnoticed. */
function sameStack({ characteristic, components, effects }: Stack): string {
  let key = characteristic;
  for (const { value } of components) key += ` ${Math.round(value / unnoticed)}`;
  for (const { source, sensitivities } of effects) {
    const standardUncertainty = standardUncertaintyOf(source.distribution);
    key += `\n${source.id}`;
    for (const sensitivity of sensitivities) key += ` ${Math.round((sensitivity * standardUncertainty) / unnoticed)}`;
  }
  return key;
}

/** @param strategies fewest touches first */
function worthTheirTouches(strategies: readonly Strategy[], location: PartLocation, view: View, draws: Draws): FoundStrategy[] {
  const evaluated = evaluateStrategies({ ...location, setup: { ...location.setup, strategies } }, draws);
  const found: FoundStrategy[] = [];
  evaluated.forEach(({ evaluation }, i) => {
    if (!evaluation.ok) return;
    const { thisPart, batch } = evaluation.value;
    if (!thisPart.chanceOfAll.ok || !batch.chanceOfAll.ok) return;
    const next: FoundStrategy = {
      strategy: strategies[i] as Strategy,
      evaluation: evaluation.value,
      thisPart: thisPart.chanceOfAll.value,
      batch: batch.chanceOfAll.value,
    };
    const last = found.at(-1);
    if (last === undefined || next[view].chance - last[view].chance > numerical + last[view].scatter + next[view].scatter) found.push(next);
  });
  return found;
}
