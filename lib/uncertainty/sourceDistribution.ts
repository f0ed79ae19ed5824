/**
 * How the deviation of a source from its best estimate is distributed. Every
 * kind has the expectation zero, so that a result at the best estimates is the
 * result's expectation to first order (JCGM 100:2008, 4.3.8: limits that are not
 * symmetric move the best estimate to their middle; see `betweenLimits`). Every
 * kind has the unit of the source and is described by one scale (JCGM 100:2008,
 * 4.3; JCGM 101:2008, 6.4). All but the exponential are symmetric.
 */
export type SourceDistribution =
  /** Gaussian; `standardDeviation` > 0 or 0. */
  | { readonly shape: "normal"; readonly standardDeviation: number }
  /** Equally likely anywhere within ± `halfWidth`. */
  | { readonly shape: "rectangular"; readonly halfWidth: number }
  /** Most likely at the middle, falling linearly to nothing at ± `halfWidth`. */
  | { readonly shape: "triangular"; readonly halfWidth: number }
  /** Flat over ± `topRatio` · `halfWidth`, falling linearly to nothing at ± `halfWidth`; `topRatio` from 0 (triangle) to 1 (rectangle). */
  | { readonly shape: "trapezoidal"; readonly halfWidth: number; readonly topRatio: number }
  /**
   * A rectangle whose half-width is itself known only to lie between `topRatio` · `halfWidth` and `halfWidth`, equally likely anywhere: flat up to the
   * first, falling in a curve to nothing at the second (JCGM 101:2008, 6.4.3). `topRatio` from 0 to 1 (rectangle). See `betweenInexactLimits`.
   */
  | { readonly shape: "curvilinearTrapezoidal"; readonly halfWidth: number; readonly topRatio: number }
  /** A sine of amplitude `halfWidth` met at a random moment: most likely at the ends. */
  | { readonly shape: "arcsine"; readonly halfWidth: number }
  /** Student's t with `degreesOfFreedom` > 0, multiplied by `scale` (the s/√n of repeats). */
  | { readonly shape: "scaledT"; readonly scale: number; readonly degreesOfFreedom: number }
  /**
   * What a quantity that cannot be negative, and of which only the expectation `mean` is known, deviates from that expectation
   * (JCGM 101:2008, 6.4.10): never below -`mean`, without an end above. A quantity that cannot be positive enters with a negative sensitivity.
   */
  | { readonly shape: "exponential"; readonly mean: number };

/**
 * Standard uncertainty of the distribution, in its unit.
 *
 * Half-widths a: rectangular a/√3, triangular a/√6, trapezoidal
 * a·√((1+β²)/6), curvilinear trapezoidal a·√(1+β+β²)/3, arcsine a/√2; exponential its
 * mean (JCGM 100, 4.3.7, 4.3.9; JCGM 101, 6.4.2 to 6.4.6, 6.4.10). With β = (w-d)/(w+d) and a = w+d the third is the
 * published √(w²/3 + d²/9). For the scaled t it is the `scale` itself, the GUM's Type A standard
 * uncertainty s/√n: the heavier tails of few repeats enter through the degrees
 * of freedom (JCGM 100, annex G), and the t distribution's own standard
 * deviation does not exist for two degrees of freedom or fewer.
 */
export function standardUncertaintyOf(distribution: SourceDistribution): number {
  switch (distribution.shape) {
    case "normal":
      return distribution.standardDeviation;
    case "rectangular":
      return distribution.halfWidth / Math.sqrt(3);
    case "triangular":
      return distribution.halfWidth / Math.sqrt(6);
    case "trapezoidal":
      return distribution.halfWidth * Math.sqrt((1 + distribution.topRatio ** 2) / 6);
    case "curvilinearTrapezoidal":
      return (distribution.halfWidth * Math.sqrt(1 + distribution.topRatio * (1 + distribution.topRatio))) / 3;
    case "arcsine":
      return distribution.halfWidth / Math.SQRT2;
    case "scaledT":
      return distribution.scale;
    case "exponential":
      return distribution.mean;
  }
}

/** Magnitude of the largest possible deviation from the estimate, to either side; `Infinity` where the distribution has no end. */
export function halfWidthOf(distribution: SourceDistribution): number {
  return Math.max(lowerReachOf(distribution), upperReachOf(distribution));
}

/** Magnitude of the largest possible deviation below the estimate; `Infinity` where there is no end. */
export function lowerReachOf(distribution: SourceDistribution): number {
  return distribution.shape === "exponential" ? distribution.mean : upperReachOf(distribution);
}

/** Largest possible deviation above the estimate; `Infinity` where there is no end. */
export function upperReachOf(distribution: SourceDistribution): number {
  switch (distribution.shape) {
    case "normal":
      return distribution.standardDeviation === 0 ? 0 : Number.POSITIVE_INFINITY;
    case "scaledT":
      return distribution.scale === 0 ? 0 : Number.POSITIVE_INFINITY;
    case "exponential":
      return distribution.mean === 0 ? 0 : Number.POSITIVE_INFINITY;
    default:
      return distribution.halfWidth;
  }
}

/** The one length that a distribution is proportional to: half-width, standard deviation, scale, or mean. */
export function scaleOf(distribution: SourceDistribution): number {
  switch (distribution.shape) {
    case "normal":
      return distribution.standardDeviation;
    case "scaledT":
      return distribution.scale;
    case "exponential":
      return distribution.mean;
    default:
      return distribution.halfWidth;
  }
}

/** The same distribution with another scale (see `scaleOf`). */
export function withScale(distribution: SourceDistribution, scale: number): SourceDistribution {
  switch (distribution.shape) {
    case "normal":
      return { shape: "normal", standardDeviation: scale };
    case "scaledT":
      return { ...distribution, scale };
    case "exponential":
      return { ...distribution, mean: scale };
    default:
      return { ...distribution, halfWidth: scale };
  }
}

/** The same distribution, `factor` times as wide; 0 leaves no doubt. */
export function scaledBy(distribution: SourceDistribution, factor: number): SourceDistribution {
  return withScale(distribution, factor * scaleOf(distribution));
}
