import type { SourceDistribution } from "./sourceDistribution.ts";

/** Where a doubt comes from; figures and budgets group by it, always in this order. */
export const families = ["contact tool", "machine", "part", "fixture", "heat", "process"] as const;
/** What kind of thing a source belongs to. */
export type Family = (typeof families)[number];

/** What a source's numbers rest on. */
export type Evidence =
  /** Repeats taken here; `readings` counts them, and `groups` says what they show where they were taken in groups, such as days. */
  | { readonly kind: "measured"; readonly readings: number; readonly groups?: ReadingGroups }
  | { readonly kind: "certificate"; readonly note: string }
  | { readonly kind: "published"; readonly note: string }
  /** Limits that the drawing sets on the part; `note`: the standard that it leaves them to, such as `ISO 286 H7`. */
  | { readonly kind: "drawing"; readonly note?: string }
  /** Common practice without a source; always editable. */
  | { readonly kind: "shop default" }
  /** Typed by a person who gave no further reason. */
  | { readonly kind: "stated" };

/** Readings in groups: whether the groups differ by more than the readings within them scatter (JCGM 100:2008, H.5). */
export interface ReadingGroups {
  /** How many readings each group has. */
  readonly sizes: readonly number[];
  /** Then the estimate is the mean of the groups' means, and its doubt rests on how they scatter; else all readings count alike. */
  readonly differ: boolean;
  /** F: mean square between by mean square within; `Infinity` or NaN where nothing scatters within. */
  readonly ratio: number;
  /** Of so large a ratio by the scatter within alone. */
  readonly chance: number;
  /** Standard deviation of one reading within its group, in the unit of the estimate. */
  readonly within: number;
  /** By how much the groups themselves differ, as a standard deviation; 0 where the scatter within explains all of it. */
  readonly between: number;
}

/**
 * The only place where doubt enters: one thing that is not known exactly. A
 * stylus radius is one source however many touches use it, which is why it
 * cancels in a mid-plane and counts twice in a width. Two sources are
 * independent of each other; what two results share is a common source.
 */
export interface Source {
  /** Unique in a setup and stable between evaluations, for example `tool finder, radius`. */
  readonly id: string;
  /** What a person reads in a budget. */
  readonly label: string;
  readonly family: Family;
  /** Best estimate, in millimetres, radians, kelvins or 1. */
  readonly estimate: number;
  /** Distribution of the deviation from the estimate, same unit. */
  readonly distribution: SourceDistribution;
  /** Degrees of freedom of the standard uncertainty; `Infinity` when it is taken as exactly known (JCGM 100, G.4.3). */
  readonly degreesOfFreedom: number;
  readonly evidence: Evidence;
  /**
   * Name of the standard deviation that this source's uncertainty rests on, where others rest on the same: repeats pooled for a tool, for instance.
   * The deviations are independent, what is not known of their size is common.
   */
  readonly varianceEstimate?: string;
  /** Half-width that a worst-case stack uses where the distribution itself has no end or ends short of what is possible: a drawing's tolerance, for instance. */
  readonly limit?: number;
  /** The values that the estimate is the mean of, in the order in which they were taken, where the standard uncertainty is their own s/√n. */
  readonly repeats?: readonly number[];
  /**
   * Name of the point in a plane that this source is one coordinate of, where two sources are those of a point within a circle (a pin in its hole): the
   * two limits are the circle's radius, and a worst case does not put both at their limits at once. The coordinates are uncorrelated; chances take
   * them as independent.
   */
  readonly circle?: string;
}
