import { binetFunction, deviance } from "./logGamma.ts";

/**
 * Regularised incomplete gamma functions: `lower` P(a, x), `upper` Q(a, x) = 1 - P, and `power` x^a e^(-x) / Γ(a)
 * (x times the slope of P), for a > 0, x >= 0.
 *
 * Both keep their relative precision (about 1e-14) when tiny. Series DLMF 8.11.4 below x = a + 1, above it Legendre's continued
 * fraction DLMF 8.9.2 by the modified Lentz method (Thompson and Barnett, J. Comput. Phys. 64 (1986) 490-509).
 */
export function incompleteGamma(a: number, x: number): { lower: number; upper: number; power: number } {
  if (!(a > 0 && a < Number.POSITIVE_INFINITY)) throw new RangeError(`a: expected finite and > 0, got ${a}`);
  if (!(x >= 0)) throw new RangeError(`x: expected >= 0, got ${x}`);
  if (x === 0) return { lower: 0, upper: 1, power: 0 };
  if (x === Number.POSITIVE_INFINITY) return { lower: 1, upper: 0, power: 0 };
  // Written so that nothing large cancels.
  const power = Math.sqrt(a / (2 * Math.PI)) * Math.exp(-deviance(a, x) - binetFunction(a));
  if (x < a + 1) {
    const lower = Math.min(1, (power / a) * series(a, x));
    return { lower, upper: 1 - lower, power };
  }
  const upper = Math.min(1, power * continuedFraction(a, x));
  return { lower: 1 - upper, upper, power };
}

const precision = 1e-16;
/** Keeps the Lentz quotients from dividing by zero. */
const tiny = 1e-300;

function series(a: number, x: number): number {
  let term = 1;
  let sum = 1;
  // About 8 √a terms are needed near x = a.
  for (let k = 1; term > sum * precision; k += 1) {
    term *= x / (a + k);
    sum += term;
  }
  return sum;
}

function continuedFraction(a: number, x: number): number {
  let b = x + 1 - a;
  let c = 1 / tiny;
  let d = 1 / b;
  let h = d;
  for (let k = 1, change = 0; Math.abs(change - 1) > precision && k < 1e7; k += 1) {
    const numerator = -k * (k - a);
    b += 2;
    d = 1 / (numerator * d + b || tiny);
    c = b + numerator / c || tiny;
    change = d * c;
    h *= change;
  }
  return h;
}
