/** Natural logarithm of the gamma function for x > 0, absolute error about 1e-15 · max(1, |result|). Binet's form, DLMF 5.11.1. */
export function logGamma(x: number): number {
  if (!(x > 0)) throw new RangeError(`x: expected > 0, got ${x}`);
  return (x - 0.5) * Math.log(x) - x + halfLogTwoPi + binetFunction(x);
}

/**
 * What Stirling's formula lacks: ln Γ(x) - (x - ½) ln x + x - ½ ln 2π, for x > 0.
 *
 * Ratios of gamma functions written with it keep full precision for any size of x, where a difference of two log-gammas would
 * not. Stirling's series (DLMF 5.11.1) from 15 upwards; below, Gudermann's recurrence (from Γ(x+1) = x Γ(x)).
 */
export function binetFunction(x: number): number {
  let sum = 0;
  let z = x;
  for (; z < 15; z += 1) sum += (z + 0.5) * Math.log1p(1 / z) - 1;
  const w = 1 / (z * z);
  // Bernoulli numbers B(2k) / (2k (2k - 1)); the first term left out is 2e-17 at z = 15.
  return sum + (1 / 12 - w * (1 / 360 - w * (1 / 1260 - w * (1 / 1680 - w * (1 / 1188 - w * (691 / 360360 - w / 156)))))) / z;
}

/** a (λ - 1 - ln λ) with λ = m / a: how far a power law falls from its peak (C. Loader's saddle-point form of 2000). */
export function deviance(a: number, m: number): number {
  const t = (m - a) / a;
  if (!(Math.abs(t) < 0.1)) return a * (t - Math.log(m / a));
  // t - ln(1 + t) by ln(1 + t) = 2 artanh v: the difference of two nearly equal numbers would lose its digits.
  const v = t / (2 + t);
  const v2 = v * v;
  let series = 0;
  for (let k = 17; k >= 3; k -= 2) series = series * v2 + 1 / k;
  return a * v * (t - 2 * v2 * series);
}

/** ½ ln 2π. */
const halfLogTwoPi = 0.9189385332046728;
