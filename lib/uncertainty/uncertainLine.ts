import type { Family } from "./source.ts";
import type { SourceBook } from "./sourceBook.ts";
import type { StraightLine } from "./straightLine.ts";
import { certain, type Uncertain } from "./uncertain.ts";

/** A fitted line whose doubt is real: two sources, shared by all that is read off it. */
export interface UncertainLine {
  /** Per unit of t. */
  readonly slope: Uncertain;
  /** The line's value at a place, which may be in doubt itself. */
  valueAt(place: Uncertain | number): Uncertain;
}

/**
 * The sources behind a fitted line: its value at the centre of the places, and its slope, which are independent of each other. Their
 * common scatter is one estimate with n − 2 degrees of freedom, so the uncertainty of any value on the line, and the correlation of two of
 * them, are those of JCGM 100:2008, H.3.4 and H.15, without a covariance being passed on by hand.
 *
 * @param id unique in the book, for example `correction of the thermometer`
 */
export function uncertainLine(
  line: StraightLine,
  { id, label, family }: { readonly id: string; readonly label: string; readonly family: Family },
  book: SourceBook,
): UncertainLine {
  const { centre, degreesOfFreedom, count } = line;
  const source = (part: string, estimate: number, scale: number) =>
    book.value({
      id: `${id}, ${part}`,
      label: `${part} of ${label}`,
      family,
      estimate,
      distribution: { shape: "scaledT", scale, degreesOfFreedom },
      degreesOfFreedom,
      evidence: { kind: "measured", readings: count },
      varianceEstimate: `scatter about ${id}`,
    });
  const height = source("height", centre.value, line.standardUncertaintyAtCentre);
  const slope = source("slope", line.slope, line.standardUncertaintyOfSlope);
  return {
    slope,
    valueAt: (place) => height.plus(slope.times((typeof place === "number" ? certain(place) : place).minus(centre.at))),
  };
}
