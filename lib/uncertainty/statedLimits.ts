import type { SourceDistribution } from "./sourceDistribution.ts";

/** A best estimate and the distribution about it, as a `Source` holds them. */
export interface EstimatedDistribution {
  readonly estimate: number;
  readonly distribution: SourceDistribution;
}

/** Where limits lie of a quantity that is normal between them: at three standard deviations. Common practice, no source. */
export const limitsAtDeviations = 3;

/**
 * A quantity that lies between `nominal` - `below` and `nominal` + `above`, equally likely anywhere: a rectangle of half-width
 * (below + above)/2 about the middle of the limits. The middle is the best estimate, not the nominal value (JCGM 100:2008, 4.3.8, note:
 * variance (b₊ + b₋)²/12 about the expectation).
 *
 * @param below >= 0; @param above >= 0
 * @throws RangeError for a number that is not finite, or limits that do not enclose the nominal value
 */
export function betweenLimits(nominal: number, below: number, above: number): EstimatedDistribution {
  checkFinite("nominal", nominal);
  checkSize("below", below);
  checkSize("above", above);
  return { estimate: nominal + (above - below) / 2, distribution: { shape: "rectangular", halfWidth: (below + above) / 2 } };
}

/**
 * A quantity between limits that are themselves not exactly known: equally likely anywhere within `estimate` ± w, where w may be anything from
 * `halfWidth` - `inexactness` to `halfWidth` + `inexactness`. CTrap(a, b, d) of JCGM 101:2008, 6.4.3, with a and b = `estimate` ∓ `halfWidth` and
 * d = `inexactness`; its variance is (b - a)²/12 + d²/9.
 *
 * @param inexactness 0 to `halfWidth`
 * @throws RangeError for a number that is not finite or out of its range
 */
export function betweenInexactLimits(estimate: number, halfWidth: number, inexactness: number): EstimatedDistribution {
  checkFinite("estimate", estimate);
  checkSize("halfWidth", halfWidth);
  if (!(inexactness >= 0 && inexactness <= halfWidth))
    throw new RangeError(`inexactness: expected 0 to the half-width ${halfWidth}, got ${inexactness}`);
  const farthest = halfWidth + inexactness;
  const topRatio = farthest > 0 ? (halfWidth - inexactness) / farthest : 1;
  return { estimate, distribution: { shape: "curvilinearTrapezoidal", halfWidth: farthest, topRatio } };
}

/**
 * A quantity that cannot be negative and of which only its expectation is known (JCGM 101:2008, 6.4.10).
 *
 * @throws RangeError for an expectation that is not finite and >= 0
 */
export function nonNegative(expectation: number): EstimatedDistribution {
  checkSize("expectation", expectation);
  return { estimate: expectation, distribution: { shape: "exponential", mean: expectation } };
}

function checkFinite(name: string, value: number): void {
  if (!Number.isFinite(value)) throw new RangeError(`${name}: expected finite, got ${value}`);
}

function checkSize(name: string, size: number): void {
  if (!(size >= 0 && size < Number.POSITIVE_INFINITY)) throw new RangeError(`${name}: expected finite and >= 0, got ${size}`);
}
