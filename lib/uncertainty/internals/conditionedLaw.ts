import { gaussLegendre } from "../special/gaussLegendre.ts";
import type { CentredLaw } from "./centredLaw.ts";
import type { Vector2 } from "./chords.ts";
import type { RadialLaw } from "./radialLaw.ts";

/** A single source that moves the point along `vector` times a variable of law `law`. */
export interface PlanarVariable {
  readonly vector: Vector2;
  readonly law: CentredLaw;
}

/**
 * Chance to lie within a radius where few sources dominate and no characteristic function falls off fast enough: one source (and all parallel
 * to it) is taken exactly along the chords of the disc, one across them by quadrature, a third about both by an outer quadrature.
 *
 * @param along law of the sum of all that moves the point along the unit vector `d`
 * @param across the variable that moves it across, its vector not parallel to `d`
 * @param outer a further variable, or nothing
 */
export function conditionedLaw(mean: Vector2, d: Vector2, along: CentredLaw, across: PlanarVariable, outer: PlanarVariable | undefined, error: number): RadialLaw {
  const rule = gaussLegendre(along.knots.length > 0 || !across.law.unimodal ? 20 : 10);
  const outerNodes = outer ? nodesOf(outer.law) : [{ x: 0, weight: 1 }];
  const formB: Vector2 = [-d[1], d[0]];
  const stepAcross = across.vector[0] * formB[0] + across.vector[1] * formB[1];
  const stepAlong = across.vector[0] * d[0] + across.vector[1] * d[1];
  const reach = reachOf(across.law);
  const knots = [...across.law.knots, ...(across.law.halfWidth === Number.POSITIVE_INFINITY ? spread(across.law, reach) : [])];
  const breaks = [-reach, ...knots.map((knot) => -knot), 0, ...knots, reach];
  const slant = stepAlong / stepAcross;
  const alongKnots = along.knots.flatMap((knot) => [knot, -knot]);
  return {
    error,
    method: "conditioned on the dominating sources",
    evaluate(radius) {
      let chance = 0;
      let density = 0;
      for (const { x: shift, weight: outerWeight } of outerNodes) {
        const centre: Vector2 = outer ? [mean[0] + shift * outer.vector[0], mean[1] + shift * outer.vector[1]] : mean;
        const offset = centre[0] * formB[0] + centre[1] * formB[1];
        const middle = centre[0] * d[0] + centre[1] * d[1];
        // The place across is radius·sin θ, the half chord radius·cos θ. Pieces end where the variable across passes a knot, and where an end
        // of the chord passes one of the law along: radius (±cos θ - slant sin θ) = knot + middle - slant·offset.
        const angles = [-1, ...breaks.map((x) => (offset + x * stepAcross) / radius).filter((sine) => Math.abs(sine) < 1), 1].map(Math.asin);
        for (const knot of alongKnots) {
          const cosine = (knot + middle - slant * offset) / (radius * Math.hypot(1, slant));
          if (Math.abs(cosine) < 1) for (const turn of [Math.acos(cosine), -Math.acos(cosine)]) angles.push(turn - Math.atan(slant), turn + Math.atan(slant) - Math.PI, turn + Math.atan(slant) + Math.PI);
        }
        angles.sort((a, b) => a - b);
        for (let k = 1; k < angles.length; k += 1) {
          const from = angles[k - 1] as number;
          const to = angles[k] as number;
          if (!(to > from && from >= -Math.PI / 2 && to <= Math.PI / 2)) continue;
          for (const [j, node] of rule.nodes.entries()) {
            // Both ends may have a square-root singularity (arcsine).
            const inner = (Math.PI / 2) * node;
            const angle = (from + to) / 2 + ((to - from) / 2) * Math.sin(inner);
            const x = (radius * Math.sin(angle) - offset) / stepAcross;
            const height = across.law.evaluate(Math.abs(x))[1];
            if (!(height > 0)) continue;
            const growth = (((to - from) * Math.PI) / 4) * Math.cos(inner) * (rule.weights[j] as number) * (radius / Math.abs(stepAcross)) * height * outerWeight;
            const half = radius * Math.cos(angle);
            const place = -middle - x * stepAlong;
            const [above, atHigh] = signed(along, place + half);
            const [aboveLow, atLow] = signed(along, place - half);
            chance += growth * Math.cos(angle) * (aboveLow - above);
            density += growth * (atHigh + atLow);
          }
        }
      }
      return [Math.min(1, Math.max(0, chance)), density];
    },
  };
}

function signed(law: CentredLaw, a: number): readonly [tail: number, density: number] {
  const [tail, density] = law.evaluate(Math.abs(a));
  return [a < 0 ? 1 - tail : tail, density];
}

function nodesOf(law: CentredLaw): { x: number; weight: number }[] {
  const reach = reachOf(law);
  const even = Array.from({ length: outerPanels }, (_, k) => (k / outerPanels) * Math.min(reach, 4 * law.standardDeviation));
  const knots = [...even, ...law.knots, ...spread(law, reach), reach].sort((a, b) => a - b);
  const nodes: { x: number; weight: number }[] = [];
  for (let k = 1; k < knots.length; k += 1) {
    const from = knots[k - 1] as number;
    const to = knots[k] as number;
    if (!(to > from)) continue;
    for (const [j, node] of outerRule.nodes.entries()) {
      const inner = (Math.PI / 2) * node;
      const x = (from + to) / 2 + ((to - from) / 2) * Math.sin(inner);
      const weight = (((to - from) * Math.PI) / 4) * Math.cos(inner) * (outerRule.weights[j] as number) * law.evaluate(x)[1];
      nodes.push({ x, weight }, { x: -x, weight });
    }
  }
  return nodes;
}

const outerRule = gaussLegendre(10);
const outerPanels = 8;

/** Where the law ends, or leaves no more than `negligible`. */
function reachOf(law: CentredLaw): number {
  let reach = law.standardDeviation;
  while (reach < law.halfWidth && law.evaluate(reach)[0] > negligible) reach *= 1.3;
  return Math.min(reach, law.halfWidth);
}

const negligible = 1e-11;

/** Panel ends for a smooth law, growing outwards. */
function spread(law: CentredLaw, reach: number): number[] {
  const ends: number[] = [];
  for (let x = 1.5 * law.standardDeviation; x < reach; x += Math.max(1.5 * law.standardDeviation, x / 2)) ends.push(x);
  return ends;
}
