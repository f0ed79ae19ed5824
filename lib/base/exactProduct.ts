/**
 * The product of two doubles without rounding, as a double and what the rounding took away: a · b = product + error exactly, as long as
 * nothing over- or underflows (G. W. Veltkamp's splitting; T. J. Dekker, Numer. Math. 18 (1971) 224-242, 5).
 */
export function exactProduct(a: number, b: number): { readonly product: number; readonly error: number } {
  const product = a * b;
  const aHigh = upperHalf(a);
  const aLow = a - aHigh;
  const bHigh = upperHalf(b);
  const bLow = b - bHigh;
  return { product, error: aLow * bLow - (product - aHigh * bHigh - aLow * bHigh - aHigh * bLow) };
}

/** The leading 26 of the 53 bits. */
function upperHalf(x: number): number {
  const shifted = 0x8000001 * x; // 2^27 + 1
  return shifted - (shifted - x);
}
