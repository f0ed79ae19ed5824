/** Sizes come out of sums and of inches: what misses a bound by less than this, mm, has been rounded away from it. */
const rounding = 1e-9;

/**
 * Which of the ranges "over … up to and including …" holds a size, in mm; -1 where it lies above the last. Standards part nominal sizes so: 30 mm
 * belongs to the range that ends with it.
 *
 * @param bounds upper bounds of the ranges, ascending
 */
export function rangeOf(size: number, bounds: readonly number[]): number {
  return bounds.findIndex((bound) => isUpTo(size, bound));
}

/** A size as a person would type it, without the noise of a conversion: `25.4 mm`. */
export function sizeText(size: number): string {
  return `${Number(size.toPrecision(9))} mm`;
}

/** Whether a size is at most this bound. */
export function isUpTo(size: number, bound: number): boolean {
  return size <= bound + rounding;
}
