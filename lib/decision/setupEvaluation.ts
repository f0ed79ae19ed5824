import type { Outcome, Problem } from "../base/outcome.ts";
import type { PartLocation } from "../datum/locatePart.ts";
import type { Setup } from "../datum/setup.ts";
import type { StrategySolution } from "../datum/solveStrategy.ts";
import type { CellValue } from "../ledger/cellValue.ts";
import type { Ledger } from "../ledger/ledger.ts";
import type { EnteredOffset } from "../offsets/enteredOffset.ts";
import type { FixtureEvaluation } from "../tolerance/judgeFixture.ts";
import type { Judgement } from "../tolerance/judgeStrategy.ts";
import type { Budget } from "../uncertainty/budget.ts";
import type { RelatedPair } from "../uncertainty/relateSources.ts";
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
  readonly sizes: readonly (Named & { readonly difference: Budget | undefined })[];
  readonly strategies: readonly { readonly id: string; readonly evaluation: Outcome<StrategyEvaluation> }[];
  /** Strategy names, the one to be preferred first. */
  readonly ranking: readonly string[];
  /** What the fixture does to the part; undefined where nothing is stated of it. */
  readonly fixture: FixtureEvaluation | undefined;
  /** Checks beside their predictions, and what the display must show over known places; those on faces that the zero does not rest on first. */
  readonly checks: readonly JudgedCheck[];
  readonly checkMoves: readonly JudgedMove[];
  /** What the display must show when a face is touched again, by touch. */
  readonly predictions: readonly (Named & { readonly element: string; readonly axis: string; readonly tool: string })[];
}

/** What a person has added to a setup. */
export interface OwnEvaluation {
  readonly cells: Ledger["cells"];
  /** By name. */
  readonly own: ReadonlyMap<string, Outcome<CellValue>>;
  /** Doubts of cells that go together. */
  readonly related: readonly RelatedPair[];
}

/** A quantity with the name of what it belongs to. */
export interface Named {
  readonly id: string;
  readonly budget: Budget;
}

/** Part zero by one strategy, and what it does to the drawing. */
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
}
