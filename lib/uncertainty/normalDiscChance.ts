import { type Chord, chordFrame, chordsOf } from "./internals/chords.ts";
import { normalDensity, normalUpperTail } from "./special/normalCumulative.ts";

/**
 * Chance that a point with a bivariate normal distribution lies within `radius` of the origin, absolute error below 1e-10.
 *
 * One quadrature over the chords of the disc, each with the exact normal chance of its length; the axes are chosen so that the
 * coordinates along and across the chords are uncorrelated. With equal variances and mean zero it is 1 - exp(-r²/2σ²) (Rayleigh), with
 * a mean Rice's distribution.
 *
 * @param mean the point's estimate, in the unit of the radius
 * @param covariance of the two coordinates; may be singular or zero
 * @param radius at least 0
 * @throws RangeError for values that are not finite, a negative radius or a covariance that is not positive semidefinite
 */
export function normalDiscChance(
  mean: readonly [number, number],
  covariance: readonly [xx: number, xy: number, yy: number],
  radius: number,
): number {
  if (![...mean, ...covariance].every(Number.isFinite)) throw new RangeError(`mean, covariance: expected finite, got ${mean} and ${covariance}`);
  if (!(radius >= 0)) throw new RangeError(`radius: expected >= 0, got ${radius}`);
  const [xx, xy, yy] = covariance;
  if (!(xx >= 0 && yy >= 0 && xy * xy <= xx * yy * (1 + 1e-9))) {
    throw new RangeError(`covariance: expected positive semidefinite, got [${covariance}]`);
  }
  const frame = chordFrame(mean, covariance);
  const { sigmaA, sigmaB } = frame;
  if (radius === Number.POSITIVE_INFINITY) return 1;
  if (sigmaA === 0) return Math.hypot(...mean) <= radius ? 1 : 0;
  const reach = farthest * sigmaB;
  if (!(reach > thinnest * Math.max(radius, sigmaA))) {
    const centre = mean[0] * frame.formB[0] + mean[1] * frame.formB[1];
    const half = Math.sqrt(Math.max(0, (radius - centre) * (radius + centre)));
    const middle = -(mean[0] * frame.d[0] + mean[1] * frame.d[1]);
    return Math.abs(centre) <= radius ? normalBetween((middle - half) / sigmaA, (middle + half) / sigmaA) : 0;
  }
  const chance = chordsOf(frame, radius, reach).reduce(
    (sum: number, { b, low, high, weight }: Chord) => sum + ((weight * normalDensity(b / sigmaB)) / sigmaB) * normalBetween(low / sigmaA, high / sigmaA),
    0,
  );
  return Math.min(1, Math.max(0, chance));
}

/** Standard deviations beyond which less than 1e-15 is left. */
const farthest = 8.2;
/** A cloud thinner than this, relative to the disc, is a line to double precision. */
const thinnest = 1e-13;

function normalBetween(low: number, high: number): number {
  return low > 0 ? normalUpperTail(low) - normalUpperTail(high) : normalUpperTail(-high) - normalUpperTail(-low);
}
