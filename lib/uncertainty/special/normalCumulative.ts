/**
 * Chance that a standard normal variable is at most `z`.
 *
 * Relative error below 1e-15 for z > -37, so the far lower tail keeps its digits.
 */
export function normalCumulative(z: number): number {
  return z < 0 ? upperTailOf(-z) : 1 - upperTailOf(z);
}

/** Chance that a standard normal variable exceeds `z`; relative error below 1e-15 for z < 37. */
export function normalUpperTail(z: number): number {
  return z < 0 ? 1 - upperTailOf(-z) : upperTailOf(z);
}

/** Density of the standard normal distribution at `z`. */
export function normalDensity(z: number): number {
  return inverseRootTwoPi * halfSquareExponential(Math.abs(z));
}

/** 1/√(2π). */
const inverseRootTwoPi = 0.3989422804014327;

// Coefficients: W. J. Cody, Rational Chebyshev approximations for the error function, Math. Comp. 23 (1969) 631-637, written
// for the normal integral as in Cody, Algorithm 715 (ANORM), ACM TOMS 19 (1993) 22-32. The tests hold them against 50-digit values.
const smallNumerator = [
  0.065682337918207449113, 2.2352520354606839287, 161.02823106855587881, 1067.6894854603709582, 18154.981253343561249,
];
const smallDenominator = [1, 47.20258190468824187, 976.09855173777669322, 10260.932208618978205, 45507.789335026729956];
const middleNumerator = [
  1.0765576773720192317e-8, 0.39894151208813466764, 8.8831497943883759412, 93.506656132177855979, 597.27027639480026226,
  2494.5375852903726711, 6848.1904505362823326, 11602.651437647350124, 9842.7148383839780218,
];
const middleDenominator = [
  1, 22.266688044328115691, 235.38790178262499861, 1519.377599407554805, 6485.558298266760755, 18615.571640885098091, 34900.952721145977266,
  38912.003286093271411, 19685.429676859990727,
];
const farNumerator = [
  0.02307344176494017303, 0.21589853405795699, 0.1274011611602473639, 0.022235277870649807, 0.001421619193227893466, 2.9112874951168792e-5,
];
const farDenominator = [
  1, 1.28426009614491121, 0.468238212480865118, 0.0659881378689285515, 0.00378239633202758244, 7.29751555083966205e-5,
];

/** Where the three approximations meet, Cody's own limits. */
const smallLimit = 0.67448975;
const middleLimit = Math.sqrt(32);

/** Upper tail for z >= 0. */
function upperTailOf(z: number): number {
  if (z <= smallLimit) return 0.5 - (z * polynomial(smallNumerator, z * z)) / polynomial(smallDenominator, z * z);
  if (z <= middleLimit) return (halfSquareExponential(z) * polynomial(middleNumerator, z)) / polynomial(middleDenominator, z);
  if (z === Number.POSITIVE_INFINITY) return 0;
  const inverseSquare = 1 / (z * z);
  const correction = (inverseSquare * polynomial(farNumerator, inverseSquare)) / polynomial(farDenominator, inverseSquare);
  return (halfSquareExponential(z) * (inverseRootTwoPi - correction)) / z;
}

/** exp(-z²/2), the square split so that its rounding does not spoil the tail (Cody 1969). */
function halfSquareExponential(z: number): number {
  if (z > 39) return 0;
  const coarse = Math.trunc(z * 16) / 16;
  return Math.exp(-0.5 * coarse * coarse) * Math.exp(-0.5 * (z - coarse) * (z + coarse));
}

/** Value of a polynomial, highest power first. */
function polynomial(coefficients: readonly number[], x: number): number {
  let sum = 0;
  for (const coefficient of coefficients) sum = sum * x + coefficient;
  return sum;
}
