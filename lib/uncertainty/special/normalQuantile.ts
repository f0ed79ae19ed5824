/**
 * The value that a standard normal variable does not exceed with chance `probability`.
 *
 * Relative error about 1e-15, tails included. Algorithm PPND16 of M. J. Wichura, Algorithm AS 241: the percentage points of the
 * normal distribution, Applied Statistics 37 (1988) 477-484; its coefficients are held against scipy in the tests.
 *
 * @param probability from 0 (gives -Infinity) to 1 (gives Infinity)
 * @throws RangeError outside 0 to 1
 */
export function normalQuantile(probability: number): number {
  if (!(probability >= 0 && probability <= 1)) throw new RangeError(`probability: expected 0 to 1, got ${probability}`);
  const q = probability - 0.5;
  if (Math.abs(q) <= 0.425) {
    const r = 0.180625 - q * q; // 0.425² - q²
    return (q * polynomial(centreNumerator, r)) / polynomial(centreDenominator, r);
  }
  const tail = Math.min(probability, 1 - probability);
  if (tail === 0) return q < 0 ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY;
  const r = Math.sqrt(-Math.log(tail));
  const size =
    r <= 5
      ? polynomial(tailNumerator, r - 1.6) / polynomial(tailDenominator, r - 1.6)
      : polynomial(farNumerator, r - 5) / polynomial(farDenominator, r - 5);
  return q < 0 ? -size : size;
}

const centreNumerator = [
  2509.0809287301226727, 33430.575583588128105, 67265.770927008700853, 45921.953931549871457, 13731.693765509461125, 1971.5909503065514427,
  133.14166789178437745, 3.387132872796366608,
];
const centreDenominator = [
  5226.495278852854561, 28729.085735721942674, 39307.89580009271061, 21213.794301586595867, 5394.1960214247511077, 687.1870074920579083,
  42.313330701600911252, 1,
];
const tailNumerator = [
  7.7454501427834140764e-4, 0.0227238449892691845833, 0.24178072517745061177, 1.27045825245236838258, 3.64784832476320460504,
  5.7694972214606914055, 4.6303378461565452959, 1.42343711074968357734,
];
const tailDenominator = [
  1.05075007164441684324e-9, 5.475938084995344946e-4, 0.0151986665636164571966, 0.14810397642748007459, 0.68976733498510000455,
  1.6763848301838038494, 2.05319162663775882187, 1,
];
const farNumerator = [
  2.01033439929228813265e-7, 2.71155556874348757815e-5, 0.0012426609473880784386, 0.026532189526576123093, 0.29656057182850489123,
  1.7848265399172913358, 5.4637849111641143699, 6.6579046435011037772,
];
const farDenominator = [
  2.04426310338993978564e-15, 1.4215117583164458887e-7, 1.8463183175100546818e-5, 7.868691311456132591e-4, 0.0148753612908506148525,
  0.13692988092273580531, 0.59983220655588793769, 1,
];

/** Value of a polynomial, highest power first. */
function polynomial(coefficients: readonly number[], x: number): number {
  let sum = 0;
  for (const coefficient of coefficients) sum = sum * x + coefficient;
  return sum;
}
