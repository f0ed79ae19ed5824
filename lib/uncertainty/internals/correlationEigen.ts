import { type Matrix, matrixOf, singularValues } from "../../base/matrix.ts";

export interface CorrelationEigen {
  /** Eigenvalues in falling order; negative ones where the matrix belongs to no quantities. */
  readonly values: readonly number[];
  /** Column k is the unit vector of value k. */
  readonly vectors: Matrix;
  /** What rounding may do to an eigenvalue: below this, of either sign, it is zero. */
  readonly rounding: number;
}

/**
 * Eigenvalues and vectors of a symmetric matrix with entries from -1 to 1. Such a matrix has no eigenvalue below minus its size (Gershgorin),
 * so that with the size added to its diagonal it is positive semidefinite, and its singular values are its eigenvalues.
 */
export function correlationEigen(coefficients: Matrix): CorrelationEigen {
  const { rows, entries } = coefficients;
  const shifted = matrixOf(rows, rows, (i, j) => (entries[i * rows + j] as number) + (i === j ? rows : 0));
  const { values, right } = singularValues(shifted);
  return { values: Array.from(values, (value) => value - rows), vectors: right, rounding: rows * rows * roundingOfOne };
}

/** Coefficients come as doubles from other calculations, a few roundings each. */
const roundingOfOne = 1e-13;
