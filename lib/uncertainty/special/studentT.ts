import { incompleteBeta } from "./incompleteBeta.ts";
import { binetFunction } from "./logGamma.ts";
import { normalDensity, normalUpperTail } from "./normalCumulative.ts";
import { normalQuantile } from "./normalQuantile.ts";
import { solveLogarithmic } from "./solveLogarithmic.ts";

/**
 * Student's t distribution for any `degreesOfFreedom` > 0, whole or not; `Infinity` gives the standard normal.
 * Chances through the incomplete beta function (DLMF 8.17; Abramowitz and Stegun 26.7.1), relative error about 1e-14, tails included.
 */
export function studentCumulative(t: number, degreesOfFreedom: number): number {
  return t < 0 ? studentUpperTail(-t, degreesOfFreedom) : 1 - studentUpperTail(t, degreesOfFreedom);
}

/** Chance that a t variable exceeds `t`. */
export function studentUpperTail(t: number, degreesOfFreedom: number): number {
  checkDegrees(degreesOfFreedom);
  if (isNormal(degreesOfFreedom)) return normalUpperTail(t);
  const { lower } = sides(Math.abs(t), degreesOfFreedom);
  return t < 0 ? 1 - lower / 2 : lower / 2;
}

/** Density of Student's t. */
export function studentDensity(t: number, degreesOfFreedom: number): number {
  checkDegrees(degreesOfFreedom);
  if (isNormal(degreesOfFreedom)) return normalDensity(t);
  return peakDensity(degreesOfFreedom) * Math.exp(-0.5 * (degreesOfFreedom + 1) * Math.log1p((t * t) / degreesOfFreedom));
}

/**
 * The value that a t variable does not exceed with chance `probability`; relative error about 1e-14.
 *
 * @param probability from 0 (gives -Infinity) to 1 (gives Infinity)
 * @throws RangeError outside 0 to 1, or for degrees of freedom not above 0
 */
export function studentQuantile(probability: number, degreesOfFreedom: number): number {
  if (!(probability >= 0 && probability <= 1)) throw new RangeError(`probability: expected 0 to 1, got ${probability}`);
  checkDegrees(degreesOfFreedom);
  if (isNormal(degreesOfFreedom)) return normalQuantile(probability);
  const tail = Math.min(probability, 1 - probability);
  if (tail === 0) return probability === 0 ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY;
  const centre = Math.abs(2 * probability - 1);
  if (centre === 0) return 0;
  const size =
    centre < 0.5
      ? solveLogarithmic(centre, centre / (2 * peakDensity(degreesOfFreedom)), (t) => {
          const { upper, power } = sides(t, degreesOfFreedom);
          return [upper, 2 * power];
        })
      : tailQuantile(tail, degreesOfFreedom);
  return probability < 0.5 ? -size : size;
}

/** From here the t differs from the normal by less than the rounding (by about z³ / 4ν, Abramowitz and Stegun 26.7.5). */
const normalFrom = 1e17;

function isNormal(degreesOfFreedom: number): boolean {
  return degreesOfFreedom >= normalFrom;
}

function checkDegrees(degreesOfFreedom: number): void {
  if (!(degreesOfFreedom > 0)) throw new RangeError(`degreesOfFreedom: expected > 0, got ${degreesOfFreedom}`);
}

/** `lower`: chance of |T| > t. `upper`: chance of |T| <= t. `power`: t times the density. */
function sides(t: number, degreesOfFreedom: number): { lower: number; upper: number; power: number } {
  const ratio = (t / degreesOfFreedom) * t;
  if (ratio === Number.POSITIVE_INFINITY) return { lower: 0, upper: 1, power: 0 };
  return incompleteBeta(degreesOfFreedom / 2, 0.5, 1 / (1 + ratio), ratio / (1 + ratio));
}

/** Density at 0: Γ((ν+1)/2) / (√(νπ) Γ(ν/2)), through the Binet function so that large ν keep their digits. */
function peakDensity(degreesOfFreedom: number): number {
  const a = degreesOfFreedom / 2;
  return Math.exp(a * Math.log1p(0.5 / a) - 0.5 + binetFunction(a + 0.5) - binetFunction(a)) / Math.sqrt(2 * Math.PI);
}

function tailQuantile(tail: number, degreesOfFreedom: number): number {
  const start = tailStart(tail, degreesOfFreedom);
  // So far out the power law is exact, and the square of t would overflow.
  if (start > 1e100 && degreesOfFreedom < 3) return start;
  return solveLogarithmic(2 * tail, start, (t) => {
    const { lower, power } = sides(t, degreesOfFreedom);
    return [lower, -2 * power];
  });
}

/** Where the search in the tail starts: any start converges, a near one sooner. */
function tailStart(tail: number, degreesOfFreedom: number): number {
  if (degreesOfFreedom < 3) {
    // The power law that bounds the tail from above, so the start lies right of the answer.
    const nu = degreesOfFreedom;
    return Math.exp((Math.log(peakDensity(nu) / tail) + ((nu - 1) / 2) * Math.log(nu)) / nu);
  }
  const z = -normalQuantile(tail);
  const z2 = z * z;
  // Two terms of the Cornish-Fisher expansion, Abramowitz and Stegun 26.7.5.
  return z * (1 + (z2 + 1) / (4 * degreesOfFreedom) + (5 * z2 * z2 + 16 * z2 + 3) / (96 * degreesOfFreedom * degreesOfFreedom));
}
