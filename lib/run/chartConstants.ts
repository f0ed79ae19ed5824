import { integrate } from "../uncertainty/special/integrate.ts";
import { logGamma } from "../uncertainty/special/logGamma.ts";
import { normalCumulative, normalUpperTail } from "../uncertainty/special/normalCumulative.ts";

/** What the range and the standard deviation of n normal values are on the average, and how they scatter, in standard deviations of one value. */
export interface ChartConstants {
  /** Mean range, d₂. */
  readonly meanRange: number;
  /** Standard deviation of the range, d₃. */
  readonly rangeDeviation: number;
  /** Mean of the sample standard deviation, c₄. */
  readonly meanDeviation: number;
}

/**
 * The constants of control charts from the normal distribution itself: d₂ = ∫ (1 - Φⁿ - (1-Φ)ⁿ) dx, d₃ from the second moment of the range
 * (L. H. C. Tippett, Biometrika 17 (1925) 364), c₄ = √(2/(n-1)) · Γ(n/2) / Γ((n-1)/2). Factors of limits follow, for example A₂ = 3/(d₂ √n),
 * D₄ = 1 + 3 d₃/d₂, B₄ = 1 + 3 √(1 - c₄²)/c₄.
 *
 * @param count n, from 2 to 1000
 */
export function chartConstants(count: number): ChartConstants {
  if (!(Number.isInteger(count) && count >= 2 && count <= 1000))
    throw new RangeError(`count: expected a whole number from 2 to 1000, got ${count}`);
  const meanRange = integrate((x) => oneMinusPower(normalUpperTail(x), count) - normalUpperTail(x) ** count, breaks, 1e-12).value;
  // E R² = 2 ∬ over x < y of P(least ≤ x, greatest > y).
  const outer = (y: number) =>
    integrate(
      (x) => {
        const between = Math.max(0, normalCumulative(y) - normalCumulative(x));
        return oneMinusPower(normalUpperTail(y), count) - (normalUpperTail(x) ** count - between ** count);
      },
      [-reach, y],
      1e-10,
    ).value;
  const square = 2 * integrate(outer, breaks, 1e-9).value;
  return {
    meanRange,
    rangeDeviation: Math.sqrt(square - meanRange * meanRange),
    meanDeviation: Math.sqrt(2 / (count - 1)) * Math.exp(logGamma(count / 2) - logGamma((count - 1) / 2)),
  };
}

/** Beyond it there is less than 1e-18 of a normal distribution. */
const reach = 9;
const breaks = [-reach, 0, reach];

/** 1 - (1 - tail)ⁿ without losing a small tail. */
function oneMinusPower(tail: number, count: number): number {
  return -Math.expm1(count * Math.log1p(-tail));
}
