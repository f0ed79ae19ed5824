import { candidateStrategies } from "./datum/candidateStrategies.ts";
import type { PartLocation } from "./datum/locatePart.ts";
import type { Strategy } from "./datum/strategy.ts";
import type { FoundStrategy, StrategySearch } from "./decision/improvement.ts";
import type { StrategyEvaluation } from "./decision/setupEvaluation.ts";
import { evaluateStrategies } from "./evaluateSetup.ts";
import type { View } from "./tolerance/deviations.ts";
import type { Draws } from "./uncertainty/draws.ts";

/** Chances are good to a few parts in a million (see radialChance): less is no gain. */
const numerical = 1e-5;
/** Strategies of one step: together they are one computation, and a step takes some hundredths of a second. */
const together = 25;

/**
 * Tries every usual strategy that the touches of a setup allow (`candidateStrategies`) for the same part zero, and keeps the few that are best for
 * their number of touches. Step by step, so that a caller can show progress, or stop.
 *
 * Candidates are sifted by the least chance that their single chances leave for all together (Bonferroni: 1 - Σ(1 - p)); of those kept, the
 * chance of all is worked out with its coincidences.
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
    const evaluations = evaluateStrategies({ ...location, setup: { ...location.setup, strategies: step } }, draws);
    evaluations.forEach(({ evaluation }, i) => {
      if (!evaluation.ok) return;
      const least = leastChance(evaluation.value, view);
      if (least === undefined) return;
      determined += 1;
      const strategy = step[i] as Strategy;
      const count = strategy.touches.length;
      const known = sifted.get(count);
      if (known === undefined || least > known.least) sifted.set(count, { strategy, evaluation: evaluation.value, least });
    });
    tried += step.length;
    if (tried < candidates) yield { tried, candidates, determined, isCutShort, best: [] };
  }
  return { tried, candidates, determined, isCutShort, best: worthTheirTouches([...sifted.values()], view) };
}

interface Sifted extends Pick<FoundStrategy, "strategy" | "evaluation"> {
  readonly least: number;
}

/** Undefined where a characteristic cannot be judged, or part zero is not found along every axis. */
function leastChance(evaluation: StrategyEvaluation, view: View): number | undefined {
  if (!evaluation.zero.every(({ ok }) => ok)) return undefined;
  let least = 1;
  for (const stack of evaluation[view].stacks) {
    if (!stack.ok) return undefined;
    least -= 1 - stack.value.chance;
  }
  return least;
}

function worthTheirTouches(sifted: readonly Sifted[], view: View): FoundStrategy[] {
  const found: FoundStrategy[] = [];
  for (const { strategy, evaluation } of [...sifted].sort((a, b) => a.strategy.touches.length - b.strategy.touches.length)) {
    const { thisPart, batch } = evaluation;
    if (!thisPart.chanceOfAll.ok || !batch.chanceOfAll.ok) continue;
    const next: FoundStrategy = { strategy, evaluation, thisPart: thisPart.chanceOfAll.value, batch: batch.chanceOfAll.value };
    const last = found.at(-1);
    if (last === undefined || next[view].chance - last[view].chance > numerical + last[view].scatter + next[view].scatter) found.push(next);
  }
  return found;
}
