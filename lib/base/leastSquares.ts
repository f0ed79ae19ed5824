/**
 * Linear least squares, min ‖A x - b‖, for one shape over and over: Householder reflections (G. H. Golub, Numer. Math. 7 (1965) 206) in the
 * caller's own memory. Rows of very different weight keep their accuracy where the heavier ones come first (M. J. D. Powell, J. K. Reid 1969).
 *
 * @param a row-major rows × columns, rows ≥ columns; overwritten
 * @param b one entry per row; overwritten
 * @param x receives the solution, one entry per column
 * @returns false where a column is nothing but the sum of those before it, exactly; that columns are independent is the caller's to know
 */
export function leastSquares(rows: number, columns: number, a: Float64Array, b: Float64Array, x: Float64Array): boolean {
  for (let k = 0; k < columns; k++) if (!reflect(rows, columns, a, b, k)) return false;
  for (let k = columns - 1; k >= 0; k--) {
    let rest = b[k] as number;
    for (let j = k + 1; j < columns; j++) rest -= (a[k * columns + j] as number) * (x[j] as number);
    x[k] = rest / (a[k * columns + k] as number);
  }
  return true;
}

/** Turns column k so that only its first k + 1 entries are left. */
function reflect(rows: number, columns: number, a: Float64Array, b: Float64Array, k: number): boolean {
  let square = 0;
  for (let i = k; i < rows; i++) square += (a[i * columns + k] as number) * (a[i * columns + k] as number);
  const length = Math.sqrt(square);
  const head = a[k * columns + k] as number;
  if (!(length > 0)) return false;
  const pivot = head > 0 ? -length : length;
  a[k * columns + k] = head - pivot;
  const scale = 1 / (pivot * (head - pivot));
  for (let j = k + 1; j < columns; j++) {
    let product = 0;
    for (let i = k; i < rows; i++) product += (a[i * columns + k] as number) * (a[i * columns + j] as number);
    const factor = product * scale;
    for (let i = k; i < rows; i++) a[i * columns + j] = (a[i * columns + j] as number) + factor * (a[i * columns + k] as number);
  }
  let product = 0;
  for (let i = k; i < rows; i++) product += (a[i * columns + k] as number) * (b[i] as number);
  for (let i = k; i < rows; i++) b[i] = (b[i] as number) + product * scale * (a[i * columns + k] as number);
  a[k * columns + k] = pivot;
  return true;
}
