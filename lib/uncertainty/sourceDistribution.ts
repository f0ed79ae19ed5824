/**
 * How the deviation of a source from its best estimate is distributed. Every
 * kind is symmetric about zero, has the unit of the source, and is described by
 * one scale (JCGM 100:2008, 4.3; JCGM 101:2008, 6.4).
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
  /** A sine of amplitude `halfWidth` met at a random moment: most likely at the ends. */
  | { readonly shape: "arcsine"; readonly halfWidth: number }
  /** Student's t with `degreesOfFreedom` > 0, multiplied by `scale` (the s/√n of repeats). */
  | { readonly shape: "scaledT"; readonly scale: number; readonly degreesOfFreedom: number };

/**
 * Standard uncertainty of the distribution, in its unit.
 *
 * Half-widths a: rectangular a/√3, triangular a/√6, trapezoidal
 * a·√((1+β²)/6), arcsine a/√2 (JCGM 100, 4.3.7, 4.3.9; JCGM 101, 6.4.2 to
 * 6.4.6). For the scaled t it is the `scale` itself, the GUM's Type A standard
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
    case "arcsine":
      return distribution.halfWidth / Math.SQRT2;
    case "scaledT":
      return distribution.scale;
  }
}

/** Largest possible deviation from the estimate; `Infinity` where the distribution has no end. */
export function halfWidthOf(distribution: SourceDistribution): number {
  switch (distribution.shape) {
    case "normal":
      return distribution.standardDeviation === 0 ? 0 : Number.POSITIVE_INFINITY;
    case "scaledT":
      return distribution.scale === 0 ? 0 : Number.POSITIVE_INFINITY;
    default:
      return distribution.halfWidth;
  }
}
