import type { Draws } from "../uncertainty/draws.ts";
import { type Columns, columnsFor, countFailures } from "./sampleStack.ts";
import type { Stack } from "./stack.ts";

/** A chance found with the help of trials. */
export interface SampledChance {
  readonly chance: number;
  /** Standard error from the trials; 0 where none was needed. */
  readonly standardError: number;
  /** The part of it that comes from the scatter of what the trials have seen. */
  readonly scatter: number;
  readonly trials: number;
  readonly seed: number;
}

/** Chances of this size are not told apart: far below the scatter of any number of trials that is run. */
const neverSeen = 1e-6;

/**
 * Chance that all characteristics are within tolerance at once. They share
 * sources (all holes follow the zero), so it is not the product of their
 * chances.
 *
 * The single chances are known without trials; trials only tell how failures
 * coincide. With q the chances of failing and N the number of failures,
 * P(all) = 1 - Σq + E[N - 1 | N > 1]·P(N > 1), which leaves little to sample
 * where failures are rare; plain counting is used where its scatter is smaller.
 * The result keeps within the bounds that the single chances set (Fréchet).
 */
export function chanceOfAll(stacks: readonly Stack[], draws: Draws): SampledChance {
  const { trials, seed } = draws;
  const chances = stacks.map(({ chance }) => chance);
  const highest = Math.min(1, ...chances);
  const lowest = Math.max(0, 1 - chances.reduce((total, chance) => total + (1 - chance), 0));
  if (highest - lowest <= neverSeen) return { chance: highest, standardError: 0, scatter: 0, trials, seed };

  // One that hardly ever fails cannot coincide with others often enough to be seen in the trials.
  const failing = stacks.filter(({ chance }) => 1 - chance > neverSeen);
  const { failures, columns } = roomFor(draws);
  failures.fill(0);
  for (const together of movingTogether(failing)) countFailures(together, draws, columns, failures);
  let passed = 0;
  let coinciding = 0;
  let coincidingSquares = 0;
  for (let trial = 0; trial < trials; trial++) {
    const more = (failures[trial] as number) - 1;
    if (more < 0) passed++;
    else {
      coinciding += more;
      coincidingSquares += more * more;
    }
  }
  const counted = passed / trials;
  const countedVariance = (counted * (1 - counted)) / trials;
  const excess = coinciding / trials;
  const excessVariance = (coincidingSquares / trials - excess ** 2) / trials;
  const useExcess = excessVariance < countedVariance || passed === trials;
  const scatter = Math.sqrt(useExcess ? excessVariance : countedVariance);
  const estimate = useExcess ? 1 - chances.reduce((total, chance) => total + (1 - chance), 0) + excess : counted;
  return {
    chance: Math.min(highest, Math.max(lowest, estimate)),
    scatter,
    // What no trial has seen may still happen about once in as many trials, within the bounds.
    standardError: Math.hypot(scatter, Math.min(highest - lowest, 1 / trials) / 2),
    trials,
    seed,
  };
}

/** Round zones as far as they are results of one computation, and every other characteristic by itself: points of one part move nearly alike. */
function movingTogether(stacks: readonly Stack[]): readonly (readonly Stack[])[] {
  const groups: Stack[][] = [];
  for (const stack of stacks) {
    const group = stack.isRound
      ? groups.find(([first]) => first?.isRound && first.components[0]?.sources === stack.components[0]?.sources)
      : undefined;
    if (group) group.push(stack);
    else groups.push([stack]);
  }
  return groups;
}

interface Room {
  /** Of every trial. */
  readonly failures: Uint16Array;
  readonly columns: Columns;
}

/** Room to count in, used again: one judgement is counted at a time, and after every edit all of them are. */
const rooms = new WeakMap<Draws, Room>();

function roomFor(draws: Draws): Room {
  const room = rooms.get(draws) ?? { failures: new Uint16Array(draws.trials), columns: columnsFor(draws) };
  rooms.set(draws, room);
  return room;
}
