/** A dense real matrix, row by row. */
export interface Matrix {
  readonly rows: number;
  readonly columns: number;
  /** Row-major entries; its length is rows × columns. */
  readonly entries: number[];
}

/** A = U · diag(values) · Vᵀ with the values in falling order. */
export interface SingularValues {
  readonly values: Float64Array;
  /** rows × k, orthonormal columns where the value is not zero. */
  readonly left: Matrix;
  /** columns × columns, orthonormal: all right singular vectors, so that the null space is in it too. */
  readonly right: Matrix;
}

const maximumSweeps = 60;

export function matrix(rows: number, columns: number): Matrix {
  return { rows, columns, entries: new Array<number>(rows * columns).fill(0) };
}

export function multiply(a: Matrix, b: Matrix): Matrix {
  if (a.columns !== b.rows) throw new RangeError(`multiply: expected ${a.columns} rows on the right, got ${b.rows}`);
  const product = matrix(a.rows, b.columns);
  for (let i = 0; i < a.rows; i++) {
    for (let k = 0; k < a.columns; k++) {
      const factor = a.entries[i * a.columns + k] as number;
      if (factor === 0) continue;
      for (let j = 0; j < b.columns; j++) {
        product.entries[i * b.columns + j] =
          (product.entries[i * b.columns + j] as number) + factor * (b.entries[k * b.columns + j] as number);
      }
    }
  }
  return product;
}

/** a + factor · b */
export function addMatrix(a: Matrix, factor: number, b: Matrix): Matrix {
  if (a.rows !== b.rows || a.columns !== b.columns)
    throw new RangeError(`addMatrix: expected ${a.rows} x ${a.columns}, got ${b.rows} x ${b.columns}`);
  const sum = matrix(a.rows, a.columns);
  for (let i = 0; i < sum.entries.length; i++) sum.entries[i] = (a.entries[i] as number) + factor * (b.entries[i] as number);
  return sum;
}

/** A matrix from a rule for its entries. */
export function matrixOf(rows: number, columns: number, entry: (row: number, column: number) => number): Matrix {
  const result = matrix(rows, columns);
  for (let i = 0; i < rows; i++) for (let j = 0; j < columns; j++) result.entries[i * columns + j] = entry(i, j);
  return result;
}

export function identity(size: number): Matrix {
  const result = matrix(size, size);
  for (let i = 0; i < size; i++) result.entries[i * size + i] = 1;
  return result;
}

export function entryOf(a: Matrix, row: number, column: number): number {
  return a.entries[row * a.columns + column] as number;
}

export function transpose(a: Matrix): Matrix {
  const result = matrix(a.columns, a.rows);
  for (let i = 0; i < a.rows; i++) for (let j = 0; j < a.columns; j++) result.entries[j * a.rows + i] = entryOf(a, i, j);
  return result;
}

/**
 * Singular values by one-sided Jacobi rotations: the columns of A are turned
 * against each other until they are orthogonal. Slow for large matrices and the
 * most accurate method for small ones (Demmel and Veselić, SIAM J. Matrix Anal.
 * Appl. 13 (1992) 1204-1245): small singular values keep their relative digits,
 * which is what a verdict on rank rests on.
 */
export function singularValues(a: Matrix): SingularValues {
  const { rows, columns } = a;
  const work = a.entries.slice();
  const right = identity(columns);
  for (let sweep = 0; sweep < maximumSweeps; sweep++) {
    let turned = false;
    for (let p = 0; p < columns - 1; p++) {
      for (let q = p + 1; q < columns; q++) turned = rotate(work, rows, columns, right.entries, p, q) || turned;
    }
    if (!turned) break;
  }
  const lengths: number[] = [];
  const order: number[] = [];
  for (let j = 0; j < columns; j++) {
    lengths.push(columnLength(work, rows, columns, j));
    order.push(j);
  }
  if (columns > 1) order.sort((i, j) => (lengths[j] as number) - (lengths[i] as number));
  const values = new Float64Array(columns);
  const left = matrix(rows, columns);
  const sorted = matrix(columns, columns);
  for (let to = 0; to < columns; to++) {
    const from = order[to] as number;
    const length = lengths[from] as number;
    values[to] = length;
    for (let i = 0; i < rows; i++) left.entries[i * columns + to] = length > 0 ? (work[i * columns + from] as number) / length : 0;
    for (let i = 0; i < columns; i++) sorted.entries[i * columns + to] = right.entries[i * columns + from] as number;
  }
  return { values, left, right: sorted };
}

/** How many singular values exceed the threshold (an absolute one, in the unit of the entries). */
export function rankOf({ values }: SingularValues, threshold: number): number {
  return values.reduce((rank, value) => (value > threshold ? rank + 1 : rank), 0);
}

/** The pseudo-inverse (Moore and Penrose), with singular values up to the absolute `threshold` taken as zero. */
export function pseudoInverse(a: Matrix, threshold: number): Matrix {
  const decomposition = singularValues(a);
  const { values, left, right } = decomposition;
  const rank = rankOf(decomposition, threshold);
  const inverse = matrix(a.columns, a.rows);
  for (let i = 0; i < a.columns; i++) {
    for (let j = 0; j < a.rows; j++) {
      let entry = 0;
      for (let k = 0; k < rank; k++) {
        entry += ((right.entries[i * a.columns + k] as number) * (left.entries[j * a.columns + k] as number)) / (values[k] as number);
      }
      inverse.entries[i * a.rows + j] = entry;
    }
  }
  return inverse;
}

/** Turns columns p and q until they are orthogonal; false when they already were. */
function rotate(work: number[], rows: number, columns: number, right: number[], p: number, q: number): boolean {
  let pp = 0;
  let qq = 0;
  let pq = 0;
  for (let i = 0; i < rows; i++) {
    const x = work[i * columns + p] as number;
    const y = work[i * columns + q] as number;
    pp += x * x;
    qq += y * y;
    pq += x * y;
  }
  if (pq === 0 || Math.abs(pq) <= Number.EPSILON * Math.sqrt(pp * qq)) return false;
  const zeta = (qq - pp) / (2 * pq);
  const tangent = Math.sign(zeta || 1) / (Math.abs(zeta) + Math.sqrt(1 + zeta * zeta));
  const cosine = 1 / Math.sqrt(1 + tangent * tangent);
  const sine = cosine * tangent;
  turn(work, rows, columns, p, q, cosine, sine);
  turn(right, columns, columns, p, q, cosine, sine);
  return true;
}

function turn(entries: number[], rows: number, columns: number, p: number, q: number, cosine: number, sine: number): void {
  for (let i = 0; i < rows; i++) {
    const x = entries[i * columns + p] as number;
    const y = entries[i * columns + q] as number;
    entries[i * columns + p] = cosine * x - sine * y;
    entries[i * columns + q] = sine * x + cosine * y;
  }
}

function columnLength(work: number[], rows: number, columns: number, column: number): number {
  let square = 0;
  for (let i = 0; i < rows; i++) square += (work[i * columns + column] as number) ** 2;
  return Math.sqrt(square);
}
