import { gaussLegendre } from "../special/gaussLegendre.ts";
import type { CentredLaw } from "./centredLaw.ts";

/**
 * The sum of two independent symmetric variables by direct quadrature, P(D + R > z) = ∫ P(D > z - x) r(x) dx, for sums of few
 * bounded terms whose characteristic function falls off too slowly to be inverted.
 *
 * Panels end wherever either factor is not smooth, and within each x = c + h sin θ takes up square-root behaviour at both ends
 * (arcsines).
 *
 * @param dominating bounded law with exact tail
 * @param rest the other law; its density is needed only within its own spread
 */
export function convolvedLaw(dominating: CentredLaw, rest: CentredLaw): CentredLaw {
  const halfWidth = dominating.halfWidth + rest.halfWidth;
  const spread = spreadKnots(rest);
  const restKnots = mirrored([...rest.knots, ...spread]);
  const restReach = Math.min(rest.halfWidth, Math.max(0, ...spread) + rest.standardDeviation);
  const restDensity = rest.density ?? ((x: number) => rest.evaluate(x)[1]);
  return {
    evaluate(z) {
      if (z >= halfWidth) return [0, 0];
      const low = Math.max(z - dominating.halfWidth, -restReach);
      const high = Math.min(z + dominating.halfWidth, restReach);
      const breaks = [low, high, ...restKnots, ...mirrored(dominating.knots).map((knot) => z - knot)]
        .filter((x) => x >= low && x <= high)
        .sort((a, b) => a - b);
      // Above z + half-width of D, any D will do.
      let tail = rest.evaluate(high)[0];
      let density = 0;
      for (const [k, end] of breaks.entries()) {
        const start = breaks[k - 1];
        if (start === undefined || !(end > start)) continue;
        for (const [j, node] of nodes.entries()) {
          const angle = (Math.PI / 2) * node;
          const x = (start + end) / 2 + ((end - start) / 2) * Math.sin(angle);
          const weight = (Math.PI / 4) * (end - start) * Math.cos(angle) * (weights[j] as number) * restDensity(Math.abs(x));
          const [above, height] = dominating.evaluate(Math.abs(z - x));
          tail += weight * (z < x ? 1 - above : above);
          density += weight * height;
        }
      }
      return [tail, density];
    },
    halfWidth,
    knots: [],
    standardDeviation: Math.hypot(dominating.standardDeviation, rest.standardDeviation),
    unimodal: dominating.unimodal && rest.unimodal,
    // Two arcsines make a logarithmic peak, which panels that end beside it only nearly follow.
    error: (dominating.unimodal || rest.unimodal ? 1e-12 : 1e-8) + dominating.error + rest.error,
    method: `quadrature of ${dominating.method} over ${rest.method}`,
  };
}

const { nodes, weights } = gaussLegendre(20);

function mirrored(knots: readonly number[]): number[] {
  return [...knots.map((knot) => -knot), 0, ...knots];
}

/** Panel ends for a smooth law: equal steps of its spread, then growing ones, out to its last 1e-17. */
function spreadKnots(law: CentredLaw): number[] {
  const knots: number[] = [];
  const unit = 0.75 * law.standardDeviation;
  for (let x = unit; x < law.halfWidth; x += Math.max(unit, x / 4)) {
    knots.push(x);
    if (!(law.evaluate(x)[0] > 1e-17)) break;
  }
  return knots;
}
