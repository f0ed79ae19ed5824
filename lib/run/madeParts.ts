import type { Mm } from "../base/quantity.ts";
import type { Axis } from "../base/vector.ts";

/** What was measured on parts that were made with this setup. */
export interface MadeParts {
  readonly measured: readonly MeasuredFeature[];
  /** In the order in which they were made: that of their first rows. */
  readonly parts: readonly string[];
  /** What was changed between them, in the order of the parts. */
  readonly corrections: readonly MadeCorrection[];
  /** Standard deviation of one part about the mean of many along an axis, where it is known from before. */
  readonly partScatter: Mm | undefined;
  /** Whether a change of scale is sought among the causes: it asks for more features, and is worth it where heat is suspected. */
  readonly seekScale: boolean;
}

/** One feature of one part: made less wanted along the axes of the drawing, as far as measured. */
export interface MeasuredFeature {
  readonly id: string;
  /** Which part of the run; in the order in which their first rows stand. */
  readonly part: string;
  readonly element: string;
  /** What cut it. */
  readonly tool: string;
  readonly deviation: readonly [x: Mm | undefined, y: Mm | undefined, z: Mm | undefined];
}

/** A change of the work offset or of one tool between two parts of a run. */
export interface MadeCorrection {
  readonly id: string;
  /** The last part that was made before it. */
  readonly after: string;
  /** The tool that was corrected; empty for the work offset, which moves what every tool cuts. */
  readonly tool: string;
  /** How far it was to move what is cut, along the axes of the drawing. */
  readonly change: readonly [x: Mm | undefined, y: Mm | undefined, z: Mm | undefined];
}

/** Readings of one surface while the machine warms, and what is allowed. */
export interface WarmUp {
  readonly axis: Axis;
  readonly readings: readonly { readonly id: string; readonly minutes: number; readonly value: Mm }[];
  /** The value at the start where it is known. */
  readonly start: Mm | undefined;
  /** How far a zero may drift; what the drawing leaves when not stated. */
  readonly allowed: Mm | undefined;
  /** Minutes per part. */
  readonly cycle: number | undefined;
  /** Minutes after the start at which the zero in force was set. */
  readonly setAt: number;
}
