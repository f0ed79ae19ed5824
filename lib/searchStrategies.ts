import { candidateStrategies } from "./datum/candidateStrategies.ts";
import type { PartLocation } from "./datum/locatePart.ts";
import { solveStrategy, zeroFound } from "./datum/solveStrategy.ts";
import type { Strategy } from "./datum/strategy.ts";
import type { FoundStrategy, StrategySearch } from "./decision/improvement.ts";
import { evaluateStrategies } from "./evaluateSetup.ts";
import type { Characteristic } from "./part/part.ts";
import { deviations, type View } from "./tolerance/deviations.ts";
import { stackOf } from "./tolerance/stack.ts";
import { budgetsTogether } from "./uncertainty/budget.ts";
import type { Draws } from "./uncertainty/draws.ts";

/** Chances are good to a few parts in a million (see radialChance): less is no gain. */
const numerical = 1e-5;
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
  const sifted = new Map<number, Sifted>();
  let [tried, determined] = [0, 0];
  while (tried < candidates) {
    const step = strategies.slice(tried, tried + together);
    for (const found of sift(step, location, view)) {
      determined += 1;
      const count = found.strategy.touches.length;
      if (found.least > (sifted.get(count)?.least ?? Number.NEGATIVE_INFINITY)) sifted.set(count, found);
    }
    tried += step.length;
    if (tried < candidates) yield { tried, candidates, determined, isCutShort, best: [] };
  }
  const kept = [...sifted.values()].map(({ strategy }) => strategy).sort((a, b) => a.touches.length - b.touches.length);
  return { tried, candidates, determined, isCutShort, best: worthTheirTouches(kept, location, view, draws) };
}

interface Sifted {
  readonly strategy: Strategy;
  readonly least: number;
}

/** Those that find part zero along every axis, and under which every characteristic can be judged. */
function sift(strategies: readonly Strategy[], location: PartLocation, view: View): Sifted[] {
  const judged = strategies.flatMap((strategy) => {
    const solved = solveStrategy(strategy, location);
    if (!solved.ok || !zeroFound(solved.value).every(Boolean)) return [];
    const found = deviations(solved.value, location, view).flatMap((deviation) => (deviation.ok ? [deviation.value] : []));
    return found.length === location.setup.part.characteristics.length ? [{ strategy, found }] : [];
  });
  const budgetOf = budgetsTogether(judged.flatMap(({ found }) => found.flat()));
  return judged.map(({ strategy, found }) => ({
    strategy,
    least: found.reduce((least, deviation, i) => {
      const characteristic = location.setup.part.characteristics[i] as Characteristic;
      return least - (1 - stackOf(characteristic, deviation.map(budgetOf)).chance);
    }, 1),
  }));
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
