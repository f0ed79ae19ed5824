import type { Family } from "./source.ts";
import type { SourceBook } from "./sourceBook.ts";
import type { LinePoint, StraightLine } from "./straightLine.ts";
import { certain, sum, type Uncertain } from "./uncertain.ts";

/** A fitted line whose doubt is real: two sources, shared by all that is read off it. */
export interface UncertainLine {
  /** Per unit of t. */
  readonly slope: Uncertain;
  /** The line's value at a place, which may be in doubt itself. */
  valueAt(place: Uncertain | number): Uncertain;
  /** Where the line has a value, which may be in doubt itself; of a slope that is not 0. */
  placeOf(value: Uncertain | number): Uncertain;
}

/** How the sources of a line are told. */
export interface LineNaming {
  /** Unique in the book, for example `correction of the thermometer`. */
  readonly id: string;
  readonly label: string;
  readonly family: Family;
}

/** One observation whose value is in doubt by something that others of the same line are in doubt by as well. */
export interface DoubtfulPoint extends Pick<LinePoint, "at"> {
  readonly value: Uncertain;
}

/**
 * The sources behind a fitted line: its value at the centre of the places, and its slope, which are independent of each other. Their
 * common scatter is one estimate with n − 2 degrees of freedom, so the uncertainty of any value on the line, and the correlation of two of
 * them, are those of JCGM 100:2008, H.3.4 and H.15, without a covariance being passed on by hand.
 *
 * @param points where their values share doubts, such as that of the standard they were all compared with: those move the line besides, and do not
 *   show in its scatter. Each line is a sum of its values with fixed factors, which passes them on.
 */
export function uncertainLine(
  line: StraightLine,
  { id, label, family }: LineNaming,
  book: SourceBook,
  points: readonly DoubtfulPoint[] = [],
): UncertainLine {
  const { centre, degreesOfFreedom, count, spread } = line;
  const source = (part: string, estimate: number, scale: number) =>
    book.value({
      id: `${id}, ${part}`,
      label: `${part} of ${label}`,
      family,
      estimate,
      distribution: Number.isFinite(degreesOfFreedom)
        ? { shape: "scaledT", scale, degreesOfFreedom }
        : { shape: "normal", standardDeviation: scale },
      degreesOfFreedom,
      evidence: { kind: "measured", readings: count },
      ...(Number.isFinite(degreesOfFreedom) && { varianceEstimate: `scatter about ${id}` }),
    });
  /** What the points' own doubts add, which is nothing at their best estimates. */
  const moved = (factorOf: (at: number) => number) =>
    sum(points.map(({ at, value }) => (value.operation.kind === "constant" ? certain(0) : value.minus(value.value).times(factorOf(at)))));
  const height = source("height", centre.value, line.standardUncertaintyAtCentre).plus(moved(() => 1 / count));
  const slope = source("slope", line.slope, line.standardUncertaintyOfSlope).plus(moved((at) => (at - centre.at) / spread));
  const from = (value: Uncertain | number) => (typeof value === "number" ? certain(value) : value);
  return {
    slope,
    valueAt: (place) => height.plus(slope.times(from(place).minus(centre.at))),
    placeOf: (value) => from(value).minus(height).over(slope).plus(centre.at),
  };
}
