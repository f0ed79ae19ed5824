import type { Draws } from "../uncertainty/draws.ts";
import { summariseRepeats } from "../uncertainty/repeats.ts";
import { sampleStack } from "./sampleStack.ts";
import type { Stack } from "./stack.ts";

/** A characteristic as trials see it: mm, or mm of diameter in a round zone. */
export interface TrialSummary {
  readonly trials: number;
  readonly seed: number;
  readonly mean: number;
  readonly standardDeviation: number;
  /** Share of the trials within tolerance, and its standard error. */
  readonly chance: number;
  readonly standardError: number;
  /** In rising order, for histograms and quantiles. */
  readonly sorted: Float64Array;
}

/** Seeded trials of a characteristic's linearised deviation: an independent look at what the computed distribution says. */
export function summariseTrials(stack: Stack, draws: Draws): TrialSummary {
  const sorted = sampleStack(stack, draws).sort();
  const { lower, upper } = stack.limits;
  const within = sorted.reduce((count, value) => (value >= lower && value <= upper ? count + 1 : count), 0);
  const chance = within / draws.trials;
  const { mean, standardDeviation } = summariseRepeats(Array.from(sorted));
  return {
    trials: draws.trials,
    seed: draws.seed,
    mean,
    standardDeviation: standardDeviation ?? 0,
    chance,
    standardError: Math.sqrt((chance * (1 - chance)) / draws.trials),
    sorted,
  };
}
