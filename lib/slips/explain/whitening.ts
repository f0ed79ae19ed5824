import { entryOf, type Matrix, singularValues } from "../../base/matrix.ts";

/** Turns discrepancies into independent values of variance 1. */
export interface Whitening {
  readonly apply: (values: ArrayLike<number>) => Float64Array;
  /** How many discrepancies can differ from 0 independently of each other. */
  readonly rank: number;
}

/** Finer than anything that is read or typed for a machine, mm: keeps discrepancies without doubt from counting without end. */
const finest = 1e-4;
/** Variances below this share of the largest are rounding. */
const negligible = 1e-9;

/**
 * y = diag(λ + f²)^(-1/2) Qᵀ d for the covariance C = Q diag(λ) Qᵀ: |y|² is the quadratic form dᵀ(C + f²)⁻¹d of the normal density (JCGM 102:2011,
 * 6.5.2.4), f the finest length that counts.
 */
export function whiteningOf(covariance: Matrix): Whitening {
  const { values, right } = singularValues(covariance);
  const size = covariance.rows;
  const largest = values[0] ?? 0;
  const scales = Array.from({ length: size }, (_, k) => 1 / Math.sqrt((values[k] as number) + finest * finest));
  return {
    rank: values.reduce((rank, value) => (value > Math.max(negligible * largest, finest * finest) ? rank + 1 : rank), 0),
    apply: (vector) => {
      const result = new Float64Array(size);
      for (let k = 0; k < size; k++) {
        let total = 0;
        for (let i = 0; i < size; i++) total += entryOf(right, i, k) * (vector[i] as number);
        result[k] = total * (scales[k] as number);
      }
      return result;
    },
  };
}
