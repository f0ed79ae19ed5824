import type { Strategy } from "../datum/strategy.ts";
import type { SampledChance } from "../tolerance/chanceOfAll.ts";
import type { View } from "../tolerance/deviations.ts";
import type { Allowance } from "./allowedDoubt.ts";
import type { HelpfulMoves } from "./helpfulMoves.ts";
import type { StrategyEvaluation } from "./setupEvaluation.ts";

export interface ImprovementRequest {
  /** Whose zero and touches it is about; the one in use where left out. */
  readonly strategy?: string;
  readonly view: View;
  /** Chance that every characteristic is to have, above 0.5 and below 1. */
  readonly wanted: number;
}

/** What would make a setup better, and how much worse it may become. */
export interface Improvement {
  readonly strategy: string;
  readonly view: View;
  readonly wanted: number;
  /** What is supposed for the moment, in words: all of it rests on that. */
  readonly supposed: readonly string[];
  readonly moves: HelpfulMoves;
  /** By doubt that has an effect, the one with the least room first. */
  readonly allowances: readonly Allowance[];
  readonly search: StrategySearch;
}

/** Far as the work has come: strategies tried, of so many. */
export interface ImprovementProgress {
  readonly tried: number;
  readonly candidates: number;
}

/** A strategy that the search found, with its chances. */
export interface FoundStrategy {
  readonly strategy: Strategy;
  readonly evaluation: StrategyEvaluation;
  readonly thisPart: SampledChance;
  readonly batch: SampledChance;
}

export interface StrategySearch {
  /** Strategies made so far, and how many there are. */
  readonly tried: number;
  readonly candidates: number;
  /** Of those tried, how many fix all that the strategy fixes whose zero they share, so that every characteristic can be judged. */
  readonly determined: number;
  /** Whether there would have been more candidates than are tried. */
  readonly isCutShort: boolean;
  /** For each number of touches, fewest first, the best strategy, as long as its further touches gain anything; empty until all are tried. */
  readonly best: readonly FoundStrategy[];
}
