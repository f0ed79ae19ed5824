import type { QuadratureRule } from "./gaussLegendre.ts";

/** An integral, and an estimate of its absolute error, rounding apart. */
export interface Integral {
  readonly value: number;
  readonly error: number;
}

/**
 * ∫ f from the first of `breaks` to the last, by adaptive Gauss-Lobatto quadrature: a panel is halved until its two halves agree with
 * the whole.
 *
 * Between two breaks x = a + (b - a) s² (3 - 2s), whose slope vanishes at both, takes up square-root behaviour there: breaks belong where
 * f is not smooth, or turns quickly against the whole range. Elsewhere halving finds it, at some cost.
 *
 * @param breaks finite, ascending
 * @param tolerance absolute, of each panel
 */
export function integrate(f: (x: number) => number, breaks: readonly number[], tolerance: number): Integral {
  let value = 0;
  let error = 0;
  for (let k = 1; k < breaks.length; k += 1) {
    const start = breaks[k - 1] as number;
    const width = (breaks[k] as number) - start;
    if (!(width > 0)) continue;
    const panel = refined(f, start, width, 0, 1, panelOf(f, start, width, 0, 1), tolerance, deepest);
    value += panel.value;
    error += panel.error;
  }
  return { value, error };
}

/** The part for s from `low` to `high`, of which `whole` is the first estimate. */
function refined(
  f: (x: number) => number,
  start: number,
  width: number,
  low: number,
  high: number,
  whole: number,
  tolerance: number,
  left: number,
): Integral {
  const middle = (low + high) / 2;
  const first = panelOf(f, start, width, low, middle);
  const second = panelOf(f, start, width, middle, high);
  const difference = Math.abs(first + second - whole);
  if (difference <= tolerance || left === 0) return { value: first + second, error: difference };
  const lower = refined(f, start, width, low, middle, first, tolerance, left - 1);
  const upper = refined(f, start, width, middle, high, second, tolerance, left - 1);
  return { value: lower.value + upper.value, error: lower.error + upper.error };
}

/** A jump is shut in by as many halvings as a double has bits. */
const deepest = 52;

function panelOf(f: (x: number) => number, start: number, width: number, low: number, high: number): number {
  const half = (high - low) / 2;
  let sum = 0;
  for (let j = 0; j < nodes.length; j += 1) {
    const s = low + half * (1 + (nodes[j] as number));
    const slope = 6 * s * (1 - s);
    // At a break itself f may be infinite, and does not count.
    if (slope > 0) sum += (weights[j] as number) * slope * f(start + width * s * s * (3 - 2 * s));
  }
  return width * half * sum;
}

/**
 * Gauss-Lobatto rule, the ends among its nodes (Abramowitz and Stegun 25.4.32): a kink or jump that hides from Gauss's nodes beside an end
 * does not hide from the end itself. Newton's method on (1 - x²) P', whose derivative is -N (N + 1) P (DLMF 14.2.1), from the Chebyshev
 * extremes.
 *
 * @param degree N of the Legendre polynomial P; one less than there are nodes
 */
function gaussLobatto(degree: number): QuadratureRule {
  const found = Array.from({ length: degree + 1 }, (_, j) => {
    let x = -Math.cos((Math.PI * j) / degree);
    let value = 1;
    for (let step = 0; step < 30; step += 1) {
      value = 1;
      let before = 0;
      for (let n = 1; n <= degree; n += 1) [value, before] = [((2 * n - 1) * x * value - (n - 1) * before) / n, value];
      const move = (x * value - before) / ((degree + 1) * value);
      x -= move;
      if (Math.abs(move) < 1e-15) break;
    }
    return { x, weight: 2 / (degree * (degree + 1) * value * value) };
  });
  return { nodes: found.map(({ x }) => x), weights: found.map(({ weight }) => weight) };
}

const { nodes, weights } = gaussLobatto(10);
