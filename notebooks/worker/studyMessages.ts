import type { Strategy } from "../../lib/datum/strategy.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import type { ExpandedUncertainty } from "../../lib/record/expandedUncertainty.ts";
import type { SetupRationale } from "../../lib/record/setupRationale.ts";
import type { StrategyBend } from "../../lib/record/strategyBend.ts";
import type { StudyResult } from "../../lib/record/studyResults.ts";
import type { View } from "../../lib/tolerance/deviations.ts";
import type { Range } from "../../lib/tolerance/stack.ts";
import type { DensityPoint } from "../figures/stack/densityCurve.ts";

/** What is studied; the seed is the document's own. */
export interface StudyOf {
  readonly document: SetupDocument;
  readonly strategy: string;
  readonly view: View;
}

export type StudyWork =
  /** First order, and the correction for the bend of the model. */
  | { readonly kind: "correction" }
  /** So many trials, in whole blocks. */
  | { readonly kind: "trials"; readonly trials: number }
  /** Trials until the numbers are steady, or there have been `mostTrials`. */
  | { readonly kind: "steady"; readonly mostTrials: number }
  /** What trials that were stopped have found: the text of their tally. */
  | { readonly kind: "stopped"; readonly tally: string };

/** What would help: a chance that every characteristic is to have. */
export interface HelpWork {
  readonly kind: "help";
  readonly wanted: number;
}

export interface HelpRequest extends StudyOf {
  readonly id: number;
  readonly work: HelpWork;
}

/** A strategy that was found, as the document would have it, and what it is worth. */
export interface OfferedStrategy {
  readonly entry: Pick<Strategy, "touches" | "hold" | "orient" | "rotation" | "sizes">;
  readonly words: string;
  readonly thisPart: number;
  readonly batch: number;
}

/** What would help, in the words in which it is shown. */
export interface Help {
  readonly sentences: readonly string[];
  /** Source, how large it may be, and what sets the bound. */
  readonly allowances: readonly (readonly [source: string, mayBe: string, boundBy: string])[];
  readonly allowanceSentences: readonly string[];
  readonly strategies: readonly OfferedStrategy[];
  readonly searchSentence: string;
}

export type HelpAnswer = { readonly id: number } & (
  | { readonly kind: "progress"; readonly tried: number; readonly candidates: number }
  | { readonly kind: "help"; readonly help: Help }
  | { readonly kind: "failed"; readonly why: string }
);

/** The rationale of a setup, its lengths in this unit. */
export interface RationaleWork {
  readonly kind: "rationale";
  readonly unit: "mm" | "inch";
}

export interface RationaleRequest extends StudyOf {
  readonly id: number;
  readonly work: RationaleWork;
}

export type RationaleAnswer = { readonly id: number } & (
  | { readonly kind: "rationale"; readonly rationale: SetupRationale }
  | { readonly kind: "failed"; readonly why: string }
);

export interface StudyRequest extends StudyOf {
  /** Comes back with every answer. */
  readonly id: number;
  readonly work: StudyWork;
}

/** A result to first order, and the limits within which it should be. */
export interface FirstOrderResult {
  readonly name: string;
  readonly unit: "mm" | "rad";
  readonly value: number;
  /** Undefined for a diameter used, which has no first-order form of its own. */
  readonly standardUncertainty: number | undefined;
  readonly expanded: ExpandedUncertainty | undefined;
  readonly limits: Range | undefined;
  /** Chance of being within the limits, and the bound of its numerical error. */
  readonly within: StudyResult["within"];
  /** Density, on what is drawn of the axis. */
  readonly curve: readonly DensityPoint[];
}

/** A result with the bend of the model taken in, as it is sent: a distribution cannot be. */
export interface WholeModelResult extends Omit<StudyResult, "distribution"> {
  /** Density of the corrected distribution; empty where trials were run. */
  readonly curve: readonly DensityPoint[];
}

/** How trials stand that are to go on until they are steady. */
export interface Steadiness {
  readonly isEnough: boolean;
  /** The result that is farthest from steady, what it has reached and what is wanted, in its unit. */
  readonly worst: { readonly name: string; readonly unit: "mm" | "rad"; readonly reached: number; readonly tolerance: number };
}

export type StudyAnswer = { readonly id: number } & (
  | { readonly kind: "firstOrder"; readonly results: readonly FirstOrderResult[] }
  | {
      readonly kind: "progress";
      /** All trials so far, as `writeTally` writes them. */
      readonly tally: string;
      readonly steadiness: Steadiness | undefined;
    }
  | {
      readonly kind: "wholeModel";
      readonly results: readonly WholeModelResult[];
      /** Where first order does not hold, of every strategy; with a correction alone. */
      readonly bends: readonly StrategyBend[] | undefined;
      readonly tally: string | undefined;
      readonly steadiness: Steadiness | undefined;
    }
  | { readonly kind: "failed"; readonly why: string }
);
