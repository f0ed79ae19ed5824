import type { Outcome, Problem } from "../base/outcome.ts";
import type { Axis, Vector } from "../base/vector.ts";
import type { LocatedPart } from "../part/locateElements.ts";
import type { Element } from "../part/part.ts";
import type { SourceBook } from "../uncertainty/sourceBook.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";
import type { PartSizes } from "./partSizes.ts";
import type { Setup } from "./setup.ts";

/** A setup as its drawing and its entries have it, before any touch is looked at. */
export interface DrawnLocation {
  readonly setup: Setup;
  readonly book: SourceBook;
  readonly located: LocatedPart;
  readonly sizes: PartSizes;
}

/** What of the fixture a tool can touch, as if it were elements of a part. */
export interface FixtureFeatures {
  readonly elements: readonly Element[];
  /** Where the fixture should have them, in the drawing's frame. */
  readonly places: LocatedPart["places"];
  /** By locator: why one that is touched cannot be. */
  readonly problems: ReadonlyMap<string, Problem>;
}

/**
 * What touches on the fixture have to know of it. The drawing's frame _where the fixture has it_ is the one in which every locator should stand; a touch on a
 * locator finds that frame but for what its metal is off, and the part lies displaced in it by what all locators are off, what lies on them, and its own sizes.
 */
export interface Seating {
  readonly features: FixtureFeatures;
  /**
   * How far the metal of a feature stands out from where it should, along its outward normal, mm.
   *
   * @param touched where, in the drawing's frame
   */
  readonly metalOf: (feature: string, touched: Vector, outward: Vector) => Uncertain;
  /** The axis along which a feature may stand off by different amounts, where it is so long. */
  readonly variesAlong: (feature: string) => Axis | undefined;
  /**
   * How far the part lies from where the fixture has it.
   *
   * @param sizes of the part: as they vary in the batch, or as this one's are known
   */
  readonly displacement: (sizes: PartSizes) => Outcome<PartDisplacement>;
}

/** How a part lies against the drawing's frame where the fixture has it. */
export interface PartDisplacement {
  /** Of a point along an axis, mm; undefined where a free motion moves it. */
  readonly along: (place: Vector, axis: Axis) => Uncertain | undefined;
  /** About X, Y and Z, radians; undefined where nothing holds the turn. */
  readonly turns: readonly [Uncertain | undefined, Uncertain | undefined, Uncertain | undefined];
  /** Whether no locator pushes along it at all, so that the part may lie anywhere. */
  readonly isOpen: (axis: Axis) => boolean;
}

/** Makes the seating of a setup. */
export type SeatingOf = (drawn: DrawnLocation, touched: ReadonlySet<string>) => Seating;
