/**
 * Coefficients, by falling power of t, of the polynomial through a function at the Chebyshev points of a piece, on which t runs from -1 to 1.
 * For few points: powers lose about one bit per degree against Chebyshev polynomials, and cost half as much to evaluate.
 */
export function polynomialPiece(f: (t: number) => number, points: number): Float64Array {
  const values = Array.from({ length: points }, (_, j) => f(Math.cos((Math.PI * (j + 0.5)) / points)));
  const coefficients = new Float64Array(points);
  // Tₖ₊₁ = 2t Tₖ - Tₖ₋₁, by rising power.
  let before = [1];
  let chebyshev = [1];
  for (let k = 0; k < points; k++) {
    let sum = 0;
    for (let j = 0; j < points; j++) sum += (values[j] as number) * Math.cos((k * Math.PI * (j + 0.5)) / points);
    const weight = (sum * (k === 0 ? 1 : 2)) / points;
    chebyshev.forEach((coefficient, power) => {
      const at = points - 1 - power;
      coefficients[at] = (coefficients[at] as number) + weight * coefficient;
    });
    const next = [0, ...chebyshev.map((coefficient) => (k === 0 ? 1 : 2) * coefficient)];
    if (k > 0)
      before.forEach((coefficient, power) => {
        next[power] = (next[power] as number) - coefficient;
      });
    before = chebyshev;
    chebyshev = next;
  }
  return coefficients;
}
