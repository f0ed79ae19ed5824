import { chordFrame } from "./internals/chords.ts";
import { farthest, normalBetween, normalDisc } from "./internals/normalDisc.ts";

/**
 * Chance that a point with a bivariate normal distribution lies within `radius` of the origin, absolute error below 1e-11.
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
  if (![...mean, ...covariance].every(Number.isFinite))
    throw new RangeError(`mean, covariance: expected finite, got ${mean} and ${covariance}`);
  if (!(radius >= 0)) throw new RangeError(`radius: expected >= 0, got ${radius}`);
  const [xx, xy, yy] = covariance;
  if (!(xx >= 0 && yy >= 0 && xy * xy <= xx * yy * (1 + 1e-9))) {
    throw new RangeError(`covariance: expected positive semidefinite, got [${covariance}]`);
  }
  if (radius === Number.POSITIVE_INFINITY) return 1;
  const frame = chordFrame(mean, covariance);
  const { sigmaA, sigmaB } = frame;
  if (sigmaA === 0) return Math.hypot(...mean) <= radius ? 1 : 0;
  if (farthest * sigmaB > thinnest * Math.max(radius, sigmaA)) return normalDisc(frame, radius)[0];
  const offset = mean[0] * frame.formB[0] + mean[1] * frame.formB[1];
  if (Math.abs(offset) > radius) return 0;
  const half = Math.sqrt((radius - offset) * (radius + offset));
  const middle = -(mean[0] * frame.d[0] + mean[1] * frame.d[1]);
  return normalBetween((middle - half) / sigmaA, (middle + half) / sigmaA);
}

/** A cloud thinner than this, relative to the disc, is a line to double precision. */
const thinnest = 1e-13;
