import type { Outcome, Problem } from "../base/outcome.ts";
import type { Effort } from "../datum/effort.ts";
import type { PartLocation } from "../datum/locatePart.ts";
import type { OptimalZero } from "../datum/optimalZero.ts";
import type { Setup } from "../datum/setup.ts";
import type { StrategySolution } from "../datum/solveStrategy.ts";
import type { CellValue } from "../ledger/cellValue.ts";
import type { Ledger } from "../ledger/ledger.ts";
import type { EnteredOffset } from "../offsets/enteredOffset.ts";
import type { NestsEvaluation } from "../offsets/nests.ts";
import type { OffsetsEvaluation } from "../offsets/offsetTable.ts";
import type { FixtureEvaluation } from "../tolerance/judgeFixture.ts";
import type { Judgement } from "../tolerance/judgeStrategy.ts";
import type { Budget } from "../uncertainty/budget.ts";
import type { RelatedPair } from "../uncertainty/relateSources.ts";
import type { TiltEvaluation } from "./evaluateTilt.ts";
import type { JudgedCheck, JudgedMove } from "./judgeChecks.ts";

/** Everything that follows from a setup. */
export interface SetupEvaluation {
  readonly setup: Setup;
  readonly location: PartLocation;
  /** What could not be read or used, at its place. */
  readonly problems: readonly Problem[];
  /** Machine coordinate of every touched face, by touch. */
  readonly faces: readonly (Named & { readonly element: string; readonly axis: string })[];
  /** Sizes that the touches have measured, and their difference to what was measured otherwise. */
  readonly sizes: readonly EvaluatedSize[];
  /** How this part lies askew in height; undefined where no touches from above tell. */
  readonly tilt: TiltEvaluation | undefined;
  readonly strategies: readonly { readonly id: string; readonly evaluation: Outcome<StrategyEvaluation> }[];
  readonly ranking: Ranking;
  /** What the fixture does to the part; undefined where nothing is stated of it. */
  readonly fixture: FixtureEvaluation | undefined;
  /** What is in force in the controller's offsets; undefined where nothing is logged of them. */
  readonly offsets: OffsetsEvaluation | undefined;
  /** How well one zero serves all nests; undefined where none are stated. */
  readonly nests: NestsEvaluation | undefined;
  /** Checks beside their predictions, and what the display must show over known places; those on faces that the zero does not rest on first. */
  readonly checks: readonly JudgedCheck[];
  readonly checkMoves: readonly JudgedMove[];
  /** What the display must show when a face is touched again, by touch. */
  readonly predictions: readonly (Named & { readonly element: string; readonly axis: string; readonly tool: string })[];
}

/** Which strategy is to be preferred (see rankStrategies). */
export interface Ranking {
  /** Strategy names, the one to be preferred first. Worked out, with the chances that it rests on, when it is first asked for. */
  readonly order: readonly string[];
}

/** What a person has added to a setup. */
export interface OwnEvaluation {
  readonly cells: Ledger["cells"];
  /** By name. */
  readonly own: ReadonlyMap<string, Outcome<CellValue>>;
  /** Doubts of cells that go together. */
  readonly related: readonly RelatedPair[];
}

/** A size that the touches have measured. */
export interface EvaluatedSize extends Named {
  /** To what was measured otherwise. */
  readonly difference: Budget | undefined;
  /** By touches and by what was measured otherwise together; undefined where that tells nothing of this size, or the two disagree. */
  readonly combined: Budget | undefined;
}

/** A quantity with the name of what it belongs to. */
export interface Named {
  readonly id: string;
  readonly budget: Budget;
}

/** Part zero by one strategy, and what it does to the drawing. Numbers are worked out when they are first asked for. */
export interface StrategyEvaluation {
  readonly id: string;
  /** X, Y, Z of part zero in the machine, mm; a problem where an axis is not determined. */
  readonly zero: readonly [Outcome<Budget>, Outcome<Budget>, Outcome<Budget>];
  /** About Z, radians; a problem when the strategy does not look at it. */
  readonly rotation: Outcome<Budget>;
  readonly offset: Outcome<EnteredOffset>;
  /** Frame, contacts and zero as the solver left them. */
  readonly solution: StrategySolution;
  readonly thisPart: Judgement;
  readonly batch: Judgement;
  /** What the same touches could give at best; undefined where they are just enough. Worked out when it is first asked for. */
  readonly optimal: Outcome<OptimalZero> | undefined;
  /** What the strategy takes to carry out. */
  readonly effort: Effort;
}
