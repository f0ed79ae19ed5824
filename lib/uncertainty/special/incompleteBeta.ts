import { binetFunction, deviance } from "./logGamma.ts";

/**
 * Regularised incomplete beta function: `lower` I_x(a, b), `upper` 1 - I_x(a, b) and `power` x^a y^b / B(a, b), for a, b > 0.
 *
 * x and its complement y = 1 - x are both given, since the caller knows the smaller one exactly. Both results keep their relative
 * precision (about 1e-14) when tiny. The continued fraction of DLMF 8.17.22, contracted to its even part (A. R. DiDonato and A. H.
 * Morris, Algorithm 708, ACM TOMS 18 (1992) 360-373, eq. 9).
 */
export function incompleteBeta(a: number, b: number, x: number, y: number): { lower: number; upper: number; power: number } {
  if (!(a > 0 && b > 0 && a < Number.POSITIVE_INFINITY && b < Number.POSITIVE_INFINITY)) {
    throw new RangeError(`a, b: expected finite and > 0, got ${a}, ${b}`);
  }
  if (!(x >= 0 && y >= 0 && Math.abs(x + y - 1) <= 1e-12)) throw new RangeError(`x, y: expected >= 0 with sum 1, got ${x}, ${y}`);
  if (x === 0) return { lower: 0, upper: 1, power: 0 };
  if (y === 0) return { lower: 1, upper: 0, power: 0 };
  const sum = a + b;
  // Written so that nothing large cancels.
  const power =
    Math.sqrt((a / sum) * (b / (2 * Math.PI))) *
    Math.exp(binetFunction(sum) - binetFunction(a) - binetFunction(b) - deviance(a, sum * x) - deviance(b, sum * y));
  // The fraction converges fast on the near side of the mean a / (a + b) only.
  if (x * (sum + 2) < a + 1) {
    const lower = Math.min(1, power / continuedFraction(a, b, x, y));
    return { lower, upper: 1 - lower, power };
  }
  const upper = Math.min(1, power / continuedFraction(b, a, y, x));
  return { lower: 1 - upper, upper, power };
}

const precision = 1e-16;
/** Keeps the Lentz quotients from dividing by zero. */
const tiny = 1e-300;

/** The fraction F in I_x(a, b) = x^a y^b / (B(a, b) F), by the modified Lentz method; a y - b x keeps its digits where x is nearly 1. */
function continuedFraction(a: number, b: number, x: number, y: number): number {
  const lambda = a * y - b * x + 1;
  let h = (a * lambda) / (a + 1) || tiny;
  let c = h;
  let d = 0;
  for (let m = 1, change = 0; Math.abs(change - 1) > precision && m < 1e6; m += 1) {
    const odd = a + 2 * m - 1;
    const numerator = ((a + m - 1) / odd) * ((a + b + m - 1) / odd) * m * (b - m) * x * x;
    const denominator = m + (m * (b - m) * x) / odd + ((a + m) * (lambda + m * (2 - x))) / (odd + 2);
    d = 1 / (denominator + numerator * d || tiny);
    c = denominator + numerator / c || tiny;
    change = c * d;
    h *= change;
  }
  return h;
}
