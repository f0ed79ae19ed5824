/**
 * The sine integral Si(x) = ∫₀ˣ sin t / t dt for x >= 0, good to about 1e-14: its power series (DLMF 6.6.5), and from `seriesEnd` on
 * π/2 + Im E₁(ix) by the continued fraction of the exponential integral (DLMF 6.9.1, 6.5.5).
 */
export function sineIntegral(x: number): number {
  return x < seriesEnd ? powerSeries(x) : Math.PI / 2 + imaginaryOfE1(x);
}

/** Up to here the alternating terms lose no more than two digits. */
const seriesEnd = 6;

function powerSeries(x: number): number {
  const square = x * x;
  let term = x;
  let sum = x;
  for (let k = 1; k < 40; k += 1) {
    term *= -square / (2 * k * (2 * k + 1));
    const part = term / (2 * k + 1);
    sum += part;
    if (Math.abs(part) < 1e-17 * sum) break;
  }
  return sum;
}

/**
 * Im E₁(ix) from E₁(z) = e^-z / (z + 1 - 1²/(z + 3 - 2²/(z + 5 - ...))), from the last of its terms inwards; complex numbers as their two parts, so
 * that nothing is allocated.
 */
function imaginaryOfE1(x: number): number {
  // The rest after n terms falls like exp(-4 √(n x)) (to leading order of the confluent hypergeometric recurrence, DLMF 13.7).
  const terms = Math.ceil(100 / x) + 8;
  let real = 2 * terms + 1;
  let imaginary = x;
  for (let k = terms; k >= 1; k -= 1) {
    const factor = (k * k) / (real * real + imaginary * imaginary);
    real = 2 * k - 1 - factor * real;
    imaginary = x + factor * imaginary;
  }
  const size = real * real + imaginary * imaginary;
  return -(imaginary * Math.cos(x) + real * Math.sin(x)) / size;
}
