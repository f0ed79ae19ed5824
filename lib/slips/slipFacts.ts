import type { Axis } from "../base/vector.ts";
import type { VoidingEvent } from "../decision/eventsSince.ts";
import type { Estimate } from "./estimate.ts";

/**
 * What is known about a setup that could give a slip away. Every list is optional: what is left out is not known, and the rules that need it say
 * so. Lengths in mm, angles in radians, times in minutes; `at` is the path of the entry that a person would look at.
 */
export interface SlipFacts {
  /** In which lengths are told. */
  readonly unit: "mm" | "inch";
  /** In which bare numbers were typed, where that is another one. */
  readonly typedIn?: "mm" | "inch";
  readonly widths?: readonly WidthFact[];
  readonly expectedLengths?: readonly LengthFact[];
  readonly heights?: readonly HeightFact[];
  readonly zeros?: readonly ZeroFact[];
  readonly shifts?: readonly ShiftFact[];
  readonly registers?: readonly RegisterFact[];
  readonly middles?: readonly MiddleFact[];
  readonly mismatches?: readonly MismatchFact[];
  readonly halves?: readonly HalfFact[];
  readonly turnovers?: readonly TurnoverFact[];
  readonly approaches?: readonly ApproachFact[];
  readonly seats?: readonly SeatFact[];
  readonly edges?: readonly EdgeFact[];
  readonly angles?: readonly AngleFact[];
  readonly bores?: readonly BoreFact[];
  readonly sweeps?: readonly SweepFact[];
  readonly ages?: readonly AgeFact[];
  readonly articles?: readonly ArticleFact[];
  readonly corrections?: readonly CorrectionFact[];
  readonly runs?: readonly RunFact[];
  readonly readings?: readonly ReadingFact[];
  readonly events?: readonly VoidingEvent[];
  readonly nestShifts?: readonly NestShiftFact[];
}

/** A width between two faces that look away from each other (outside) or at each other (inside), touched and known otherwise. */
export interface WidthFact {
  readonly at: string;
  readonly name: string;
  readonly side: "outside" | "inside";
  readonly touched: number;
  /** Touched less known. */
  readonly difference: Estimate;
  /** What it was compared with: `a micrometer`, `the drawing`. */
  readonly knownBy: string;
  readonly tool: string;
  /** The radius that was worked with; undefined where two tools touched. */
  readonly radius: number | undefined;
  /** Half the diameter in the catalogue, where it is stated besides. */
  readonly catalogueRadius: number | undefined;
  /** The two faces, and how far each lies outwards of what a third touch or a check says of it. */
  readonly faces: readonly { readonly touch: string; readonly element: string; readonly outwards: Estimate | undefined }[];
}

/** A length that should be about another one. */
export interface LengthFact {
  readonly at: string;
  readonly name: string;
  readonly value: number;
  readonly expected: number;
  readonly expectedBy: string;
}

/** A height by one tool, beside the same by another tool, a block, a check or an earlier zero. */
export interface HeightFact {
  readonly at: string;
  readonly name: string;
  readonly against: string;
  readonly difference: Estimate;
  readonly tool: string;
  readonly length: number;
  /** Other tools of the table. */
  readonly lengths: readonly { readonly tool: string; readonly length: number }[];
  readonly spacers: readonly { readonly name: string; readonly thickness: number }[];
}

/** A part zero as it was found, and the offset that was active when it was. */
export interface ZeroFact {
  readonly at: string;
  readonly axis: Axis;
  readonly found: number;
  readonly previous: number;
  /** Of the comparison of both. */
  readonly standardUncertainty: number;
}

/** What is in force of a work offset, beside what it was meant to be. */
export interface ShiftFact {
  readonly at: string;
  readonly register: string;
  readonly axis: Axis;
  /** In force, less measured zero and correction. */
  readonly remaining: Estimate;
  readonly nestActive: boolean;
}

/** A register that was written, or that the programme calls. */
export interface RegisterFact {
  readonly at: string;
  readonly register: string;
  readonly called: boolean;
  /** What was written, and what stood there; undefined for a register that is only called. */
  readonly written: { readonly value: number; readonly before: number } | undefined;
  /** What stood in the other registers. */
  readonly others: readonly { readonly register: string; readonly before: number }[];
}

/** The two faces of a middle that a zero rests on. */
export interface MiddleFact {
  readonly at: string;
  readonly strategy: string;
  readonly middle: string;
  readonly faces: readonly [MiddleFace, MiddleFace];
  /** Half-width by which the tip may stand off the spindle axis. */
  readonly eccentricity: number;
  /** Whether the spindle was turned half round between the two touches. */
  readonly turned: boolean;
}

export interface MiddleFace {
  readonly element: string;
  readonly touch: string;
  readonly tool: string;
  /** Standard deviation of its own repeats, with its degrees of freedom; undefined for one reading. */
  readonly scatter: { readonly standardDeviation: number; readonly degreesOfFreedom: number } | undefined;
  /** Half-width. */
  readonly roughness: number;
}

/** What the variation of a size does to a characteristic by the choice of the zero. */
export interface MismatchFact {
  readonly at: string;
  readonly strategy: string;
  readonly characteristic: string;
  readonly size: string;
  /** Worst case over the whole zone, from 0. */
  readonly share: number;
}

/** A zero at a middle that rests on one face and the drawing's size, where both faces were touched. */
export interface HalfFact {
  readonly at: string;
  readonly strategy: string;
  readonly middle: string;
  /** The zero less half-way between the two touches. */
  readonly difference: Estimate;
}

/** A feature of an earlier operation, found again on a part that was turned over. */
export interface TurnoverFact {
  readonly at: string;
  readonly feature: string;
  readonly axis: Axis;
  readonly touched: number;
  readonly standardUncertainty: number;
  /** The turn that was assumed. */
  readonly assumed: { readonly turn: string; readonly predicted: number };
  readonly others: readonly { readonly turn: string; readonly predicted: number }[];
}

/** How an axis was approached when it was touched, and when it works (F10). */
export interface ApproachFact {
  readonly at: string;
  readonly axis: Axis;
  readonly lostMotion: number;
  /** Direction of the last move before cutting; 0 where both occur. */
  readonly use: 1 | -1 | 0;
  /** Mean direction of the touches that the zero rests on, from -1 to 1. */
  readonly touched: number;
  readonly characteristic: string;
  /** Whole width of its zone. */
  readonly zone: number;
}

export interface SeatFact {
  readonly at: string;
  readonly what: string;
  /** Lift over a pad or twist of four corners, against a part that sat well. */
  readonly lift: Estimate;
}

/** Two touches of one face at two places, in a setup that looks at no skew. */
export interface EdgeFact {
  readonly at: string;
  readonly element: string;
  readonly touches: readonly [string, string];
  /** One place less the other along the normal, as the face would be square to the axis. */
  readonly difference: Estimate;
  /** Between the two places along the face. */
  readonly baseline: number;
  /** From the zero to the farthest feature. */
  readonly arm: number;
  readonly characteristic: string;
  /** Whole width of the narrowest zone. */
  readonly zone: number;
}

/** An angle that a strategy measures, and what it carries. */
export interface AngleFact {
  readonly at: string;
  readonly strategy: string;
  /** Standard uncertainty, radians. */
  readonly standardUncertainty: number;
  readonly arm: number;
  readonly characteristic: string;
  readonly zone: number;
}

export interface BoreFact {
  readonly at: string;
  readonly element: string;
  /** Standard uncertainty of the centre along its worse axis, in units of one touch's: the root of the largest entry of (AᵀA)⁻¹. */
  readonly amplification: number;
  readonly points: readonly { readonly touch: string; readonly residual: Estimate }[];
  /** Diameter by touches less by other means. */
  readonly diameter: Estimate | undefined;
}

/** A shift that was taken from a swept indicator. */
export interface SweepFact {
  readonly at: string;
  readonly axis: Axis;
  readonly applied: number;
  readonly totalReading: number;
  /** Of the indicator's lever, by which the total reading is too large; 1 without a lever. */
  readonly cosine: number;
  /** Of the shift less half the total reading. */
  readonly standardUncertainty: number;
}

/** A zero, and how far it may have drifted. */
export interface AgeFact {
  readonly at: string;
  readonly axis: Axis;
  readonly minutes: number;
  /** Since the zero was set. */
  readonly drift: Estimate;
  /** What drift may take, mm. */
  readonly allowed: number;
}

/** The same deviation on two articles with one correction between. */
export interface ArticleFact {
  readonly at: string;
  readonly characteristic: string;
  readonly first: number;
  readonly second: number;
  /** How far the second was to move, as typed. */
  readonly change: number;
  /** Of one of them. */
  readonly standardUncertainty: number;
}

/** A correction, and which tools show the deviation that it answers. */
export interface CorrectionFact {
  readonly at: string;
  readonly place: "one tool" | "work offset";
  readonly deviations: readonly { readonly tool: string; readonly deviation: Estimate }[];
}

/** Deviations of one characteristic on parts in the order in which they were made. */
export interface RunFact {
  readonly at: string;
  readonly characteristic: string;
  readonly deviations: readonly number[];
  /** Of one part about its mean, known beforehand. */
  readonly standardDeviation: number;
  /** Whether a correction is about to be made, or was made after each part. */
  readonly corrected: "now" | "after each";
}

/** A reading beside what its repeats, a prediction or an earlier value say. */
export interface ReadingFact {
  readonly at: string;
  readonly name: string;
  /** Machine coordinate. */
  readonly value: number;
  /** What was added to what was typed: the zero of the work frame in which it was read; 0 where left out. */
  readonly added?: number;
  readonly expected: number;
  /** Of value less expected. */
  readonly difference: Estimate;
  readonly expectedBy: string;
  /** How far the tool is drawn back after a touch, where it is known; 0 where not. */
  readonly retract: number;
}

/** A shift of a nest as typed. */
export interface NestShiftFact {
  readonly at: string;
  readonly axis: Axis;
  readonly shift: number;
  readonly pitch: number;
  readonly measuredZero: number;
  readonly standardUncertainty: number;
}
