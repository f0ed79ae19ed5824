import type { Cumulants } from "./cumulants.ts";

/**
 * What bends the logarithm of a joint characteristic function away from that of a normal: Σ κ₄(as + bt)⁴/24 - κ₆(as + bt)⁶/720 over some
 * sources, as a polynomial of s and t. Coefficients by the power of t, so that the first and the last of a degree belong to one axis.
 */
export interface Bends {
  readonly fourth: Float64Array;
  readonly sixth: Float64Array;
}

export function noBends(): Bends {
  return { fourth: new Float64Array(5), sixth: new Float64Array(7) };
}

const binomials4 = [1, 4, 6, 4, 1] as const;
const binomials6 = [1, 6, 15, 20, 15, 6, 1] as const;

/** Adds what a source with the sensitivities a and b bends; without its powers of s alone, or of t alone, where the axis has the source as it is. */
export function addBends(to: Bends, a: number, b: number, { fourth, sixth }: Cumulants, without?: "s" | "t"): void {
  addPowers(to.fourth, binomials4, a, b, fourth / 24, without);
  addPowers(to.sixth, binomials6, a, b, -sixth / 720, without);
}

function addPowers(
  to: Float64Array,
  binomials: readonly number[],
  a: number,
  b: number,
  factor: number,
  without: "s" | "t" | undefined,
): void {
  const degree = binomials.length - 1;
  const first = without === "s" ? 1 : 0;
  const last = without === "t" ? degree - 1 : degree;
  for (let k = first; k <= last; k++)
    to[k] = (to[k] as number) + (binomials[k] as number) * factor * powerOf(a, degree - k) * powerOf(b, k);
}

/** A small whole power: `**` takes a general one. */
function powerOf(x: number, exponent: number): number {
  let power = 1;
  for (let i = 0; i < exponent; i++) power *= x;
  return power;
}
