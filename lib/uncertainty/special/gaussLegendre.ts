/** Nodes on -1 to 1 and weights of a quadrature rule. */
export interface QuadratureRule {
  readonly nodes: readonly number[];
  readonly weights: readonly number[];
}

/**
 * Gauss-Legendre rule of `count` points: exact for polynomials up to degree 2·count - 1. Newton's method on the Legendre
 * recurrence (DLMF 3.5.15, 18.9.1), kept after the first call.
 */
export function gaussLegendre(count: number): QuadratureRule {
  const known = rules.get(count);
  if (known) return known;
  if (!(Number.isInteger(count) && count > 0)) throw new RangeError(`count: expected a whole number > 0, got ${count}`);
  const nodes: number[] = [];
  const weights: number[] = [];
  for (let k = 0; k < count; k += 1) {
    // Tricomi's start (DLMF 18.16.14 to first order), close enough for Newton to double its digits at once.
    let x = -Math.cos((Math.PI * (k + 0.75)) / (count + 0.5));
    let slope = 0;
    for (let step = 0; step < 10; step += 1) {
      let value = 1;
      let before = 0;
      for (let n = 1; n <= count; n += 1) {
        const next = ((2 * n - 1) * x * value - (n - 1) * before) / n;
        before = value;
        value = next;
      }
      slope = (count * (x * value - before)) / (x * x - 1);
      const move = value / slope;
      x -= move;
      if (Math.abs(move) < 1e-15) break;
    }
    nodes.push(x);
    weights.push(2 / ((1 - x * x) * slope * slope));
  }
  const rule = { nodes, weights };
  rules.set(count, rule);
  return rule;
}

const rules = new Map<number, QuadratureRule>();
