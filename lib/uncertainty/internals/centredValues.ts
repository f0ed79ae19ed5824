import { compensatedSum } from "../../base/compensatedSum.ts";

/** A mean as a double and a remainder, so that values which differ in the last decimal lose nothing to their size. */
export interface Centre {
  readonly mean: number;
  /** What the mean lacks as a double. */
  readonly remainder: number;
}

/** Values about their mean. */
export interface CentredValues extends Centre {
  readonly deviations: readonly number[];
  /** Σd² − (Σd)²/n: the second term, nearly zero, takes out what the mean still lacks. */
  readonly sumOfSquares: number;
}

/** @throws RangeError, which names the values as `name`, if there is no value or one is not finite */
export function centreOf(values: readonly number[], name = "values"): Centre {
  const [first] = values;
  if (first === undefined) throw new RangeError(`${name}: expected at least one, got none`);
  const stray = values.find((value) => !Number.isFinite(value));
  if (stray !== undefined) throw new RangeError(`${name}: expected finite numbers, got ${stray}`);
  const fromFirst = compensatedSum(values.map((value) => value - first));
  const shift = (fromFirst.sum + fromFirst.error) / values.length;
  const mean = first + shift;
  // What the addition rounded off (two-sum, D. E. Knuth, TAOCP 2, 4.2.2, theorem B).
  const rounded = mean - first;
  return { mean, remainder: first - (mean - rounded) + (shift - rounded) };
}

/** @throws RangeError as `centreOf` */
export function centredValues(values: readonly number[], name = "values"): CentredValues {
  const { mean, remainder } = centreOf(values, name);
  const deviations = values.map((value) => value - mean - remainder);
  const squares = compensatedSum(deviations.map((deviation) => deviation * deviation));
  const rest = compensatedSum(deviations);
  const sumOfSquares = Math.max(0, squares.sum + squares.error - (rest.sum + rest.error) ** 2 / values.length);
  return { mean, remainder, deviations, sumOfSquares };
}
