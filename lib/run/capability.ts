import { normalQuantile } from "../uncertainty/special/normalQuantile.ts";

/** How much room the limits of a characteristic leave for the scatter of parts. */
export interface Capability {
  /** (upper - lower) / 6 s: as if the parts lay in the middle of the limits. */
  readonly potential: number;
  /** Distance of the mean from the nearer limit / 3 s; below 0 where the mean is beyond it. */
  readonly index: number;
  /** Of the index, 95 %: so few parts tell so little of it. */
  readonly interval: { readonly lower: number; readonly upper: number };
  /** (upper - lower) / 6 √(s² + (mean - target)²): what is off the target counts as scatter. */
  readonly aboutTarget: number;
}

const coverage = 0.95;

/**
 * Capability of a run of parts from its mean and standard deviation s (NIST/SEMATECH e-Handbook 6.1.6: C_p, C_pk and C_pm; the interval is Bissell's
 * approximation there, C_pk ± z √(1/9n + C_pk²/2(n - 1))). For parts that are normally distributed and neither drift nor jump.
 *
 * @param limits deviations that the drawing allows, lower below upper, both finite
 * @param target where the drawing wants it, in the same unit
 * @param count parts, at least 2
 * @throws RangeError for fewer, a standard deviation that is not above 0, or limits that leave no room
 */
export function capabilityOf(
  { mean, standardDeviation, count }: { readonly mean: number; readonly standardDeviation: number; readonly count: number },
  { lower, upper }: { readonly lower: number; readonly upper: number },
  target: number,
): Capability {
  if (!(Number.isInteger(count) && count >= 2)) throw new RangeError(`count: expected at least 2, got ${count}`);
  if (!(standardDeviation > 0 && standardDeviation < Number.POSITIVE_INFINITY))
    throw new RangeError(`standardDeviation: expected above 0, got ${standardDeviation}`);
  if (!(upper > lower && Number.isFinite(upper - lower)))
    throw new RangeError(`limits: expected lower below upper, got ${lower} to ${upper}`);
  const index = Math.min(upper - mean, mean - lower) / (3 * standardDeviation);
  const half = normalQuantile((1 + coverage) / 2) * Math.sqrt(1 / (9 * count) + index ** 2 / (2 * (count - 1)));
  return {
    potential: (upper - lower) / (6 * standardDeviation),
    index,
    interval: { lower: index - half, upper: index + half },
    aboutTarget: (upper - lower) / (6 * Math.hypot(standardDeviation, mean - target)),
  };
}
