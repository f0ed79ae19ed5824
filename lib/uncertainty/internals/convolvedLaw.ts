import { gaussLegendre } from "../special/gaussLegendre.ts";
import { allKnots, type CentredLaw, densityAt, type HalfLaw, halvesOf, lawAt, lowerHalfOf } from "./centredLaw.ts";

/**
 * The sum of two independent variables by direct quadrature, P(D + R > z) = ∫ P(D > z - x) r(x) dx, for sums of few
 * bounded terms whose characteristic function falls off too slowly to be inverted.
 *
 * Panels end wherever either factor is not smooth, and within each a sine takes up square-root behaviour at both ends. Where the rest is an arcsine,
 * x = a sin u takes up its infinite density at a, which would spoil a panel that ends close by.
 *
 * @param dominating law with exact tail and an end to at least one side
 * @param rest the other law; its density is needed only within its own spread
 */
export function convolvedLaw(dominating: CentredLaw, rest: CentredLaw): CentredLaw {
  const [lower, upper] = [lowerHalfOf(dominating).halfWidth, dominating.halfWidth];
  const restLowerHalf = lowerHalfOf(rest);
  const spreadAbove = spreadKnots(rest, rest.standardDeviation);
  const spreadBelow = rest.lowerHalf ? spreadKnots(restLowerHalf, rest.standardDeviation) : spreadAbove;
  const restKnots = [...allKnots(rest), ...spreadAbove, ...spreadBelow.map((x) => -x)];
  const dominatingKnots = allKnots(dominating);
  const restUpper = Math.min(rest.halfWidth, Math.max(0, ...spreadAbove) + rest.standardDeviation);
  const restLower = Math.min(restLowerHalf.halfWidth, Math.max(0, ...spreadBelow) + rest.standardDeviation);
  const { sweptDensity } = rest;
  const sweep = rest.halfWidth;
  const ends = [lower + restLowerHalf.halfWidth, upper + rest.halfWidth] as const;
  const evaluate = (z: number): readonly [number, number] => {
    if (z >= ends[1]) return [0, 0];
    if (z <= -ends[0]) return [1, 0];
    const low = Math.max(z - upper, -restLower);
    const high = Math.min(z + lower, restUpper);
    const breaks = [low, high, ...restKnots, ...dominatingKnots.map((knot) => z - knot)]
      .filter((x) => x >= low && x <= high)
      .map((x) => (sweptDensity ? Math.asin(x / sweep) : x))
      .sort((a, b) => a - b);
    // Above z + the lower reach of D, any D will do.
    let tail = lawAt(rest, high)[0];
    let density = 0;
    for (const [k, end] of breaks.entries()) {
      const start = breaks[k - 1];
      if (start === undefined || !(end > start)) continue;
      for (const [j, node] of nodes.entries()) {
        const angle = (Math.PI / 2) * node;
        const u = (start + end) / 2 + ((end - start) / 2) * Math.sin(angle);
        const x = sweptDensity ? sweep * Math.sin(u) : u;
        const height = sweptDensity ? sweptDensity(u) : densityAt(rest, x);
        const weight = (Math.PI / 4) * (end - start) * Math.cos(angle) * (weights[j] as number) * height;
        const [above, slope] = lawAt(dominating, z - x);
        tail += weight * above;
        density += weight * slope;
      }
    }
    return [tail, density];
  };
  const isSkewed = dominating.lowerHalf !== undefined || rest.lowerHalf !== undefined;
  return {
    ...(isSkewed ? halvesOf(evaluate, ...ends) : { evaluate, halfWidth: ends[1], knots: [] }),
    standardDeviation: Math.hypot(dominating.standardDeviation, rest.standardDeviation),
    unimodal: dominating.unimodal && rest.unimodal,
    // Two arcsines make a logarithmic peak, which panels that end beside it only nearly follow.
    error: (dominating.unimodal || rest.unimodal ? 1e-12 : 1e-8) + dominating.error + rest.error,
    method: `quadrature of ${dominating.method} over ${rest.method}`,
  };
}

const { nodes, weights } = gaussLegendre(20);

/** Panel ends for a smooth law: equal steps of its spread, then growing ones, out to its last 1e-17. */
function spreadKnots(half: HalfLaw, standardDeviation: number): number[] {
  const knots: number[] = [];
  const unit = 0.75 * standardDeviation;
  for (let x = unit; x < half.halfWidth; x += Math.max(unit, x / 4)) {
    knots.push(x);
    if (!(half.evaluate(x)[0] > 1e-17)) break;
  }
  return knots;
}
