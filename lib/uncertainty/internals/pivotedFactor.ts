import { type Matrix, matrix } from "../../base/matrix.ts";

export interface PivotedFactor {
  /** Rows as in the matrix; column k belongs to `pivots[k]`, and is 0 in the rows of earlier pivots. */
  readonly factor: Matrix;
  /** Row that column k has its own part from. */
  readonly pivots: readonly number[];
}

/**
 * A factor L with L Lᵀ = `coefficients`, a positive semidefinite matrix with no more than ones on the diagonal, with as many columns as its rank: Cholesky's
 * method with the largest remainder as the next pivot (N. J. Higham, Accuracy and Stability of Numerical Algorithms, 2nd ed. (2002),
 * section 10.3). Among equals the first row comes first.
 */
export function pivotedFactor(coefficients: Matrix): PivotedFactor {
  const size = coefficients.rows;
  const rest = coefficients.entries.slice();
  const columns: number[][] = [];
  const pivots: number[] = [];
  for (let k = 0; k < size; k++) {
    let pivot = 0;
    for (let i = 1; i < size; i++) if ((rest[i * size + i] as number) > (rest[pivot * size + pivot] as number) + nothing) pivot = i;
    const variance = rest[pivot * size + pivot] as number;
    if (!(variance > nothing)) break;
    const column = Array.from({ length: size }, (_, i) =>
      pivots.includes(i) ? 0 : (rest[i * size + pivot] as number) / Math.sqrt(variance),
    );
    for (let i = 0; i < size; i++)
      for (let j = 0; j < size; j++) rest[i * size + j] = (rest[i * size + j] as number) - (column[i] as number) * (column[j] as number);
    columns.push(column);
    pivots.push(pivot);
  }
  const factor = matrix(size, columns.length);
  for (let i = 0; i < size; i++)
    for (let k = 0; k < columns.length; k++) factor.entries[i * columns.length + k] = (columns[k] as number[])[i] as number;
  return { factor, pivots };
}

/** What is left of a variance of 1 when others explain it: rounding. */
const nothing = 1e-12;
