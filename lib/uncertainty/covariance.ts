import { type Matrix, matrixOf } from "../base/matrix.ts";
import { standardUncertaintyOf } from "./sourceDistribution.ts";
import { Tape } from "./tape.ts";
import type { Uncertain } from "./uncertain.ts";

/**
 * Covariance matrix of several results, J V Jᵀ with independent sources
 * (JCGM 102:2011, 6.2.1.3): symmetric and positive semidefinite by construction.
 */
export function covarianceMatrix(results: readonly Uncertain[]): Matrix {
  const tape = new Tape(results);
  const rows = results.map((_, output) =>
    Float64Array.from(
      tape.sensitivities(output),
      (sensitivity, i) => sensitivity * standardUncertaintyOf((tape.sources[i] as (typeof tape.sources)[number]).distribution),
    ),
  );
  return matrixOf(results.length, results.length, (i, j) => {
    const a = rows[i] as Float64Array;
    const b = rows[j] as Float64Array;
    return a.reduce((total, x, k) => total + x * (b[k] as number), 0);
  });
}

/** Correlation coefficient of two results; 0 when one of them is exact. */
export function correlation(a: Uncertain, b: Uncertain): number {
  const [aa, ab, , bb] = covarianceMatrix([a, b]).entries as unknown as readonly [number, number, number, number];
  return aa > 0 && bb > 0 ? ab / Math.sqrt(aa * bb) : 0;
}
