import { gaussLegendre } from "../special/gaussLegendre.ts";
import type { CentredLaw } from "./centredLaw.ts";
import type { Vector2 } from "./chords.ts";
import type { RadialLaw } from "./radialLaw.ts";

/** A variable of law `law` that moves the point along `vector`. */
export interface PlanarVariable {
  readonly vector: Vector2;
  readonly law: CentredLaw;
  /** Where the law bends sharply although it is smooth, for z >= 0: about the edges of bounded sources that little else blurs. */
  readonly bends: readonly number[];
}

export interface ConditionedPlan {
  readonly mean: Vector2;
  /** Unit vector of the chords. */
  readonly d: Vector2;
  /** Law of all that moves the point along `d`. */
  readonly along: CentredLaw;
  /** Where that law bends sharply, as those of the variables. */
  readonly bends: readonly number[];
  /** The variable that moves it across; its vector is not parallel to `d`. */
  readonly across: PlanarVariable;
  /** A further variable, or nothing. */
  readonly outer: PlanarVariable | undefined;
  readonly error: number;
}

/**
 * Chance to lie within a radius where few sources dominate and no characteristic function falls off fast enough: one direction is taken exactly
 * along the chords of the disc, one across them by quadrature, a third about both by an outer quadrature.
 */
export function conditionedLaw(plan: ConditionedPlan): { readonly evaluation: number; make(): RadialLaw } {
  const { mean, d, along, bends, across, outer, error } = plan;
  const rule = gaussLegendre(along.knots.length + bends.length > 0 || !across.law.unimodal ? 20 : 10);
  const formB: Vector2 = [-d[1], d[0]];
  const stepAcross = across.vector[0] * formB[0] + across.vector[1] * formB[1];
  const slant = (across.vector[0] * d[0] + across.vector[1] * d[1]) / stepAcross;
  const reach = reachOf(across.law);
  const breaks = mirrored([
    ...across.law.knots,
    ...across.bends.filter((x) => x < reach),
    ...(Number.isFinite(across.law.halfWidth) ? [] : spread(across.law, reach)),
    reach,
  ]);
  const alongKnots = mirrored([...along.knots, ...bends]);
  const acrossDensity = across.law.density ?? ((x: number) => across.law.evaluate(x)[1]);
  const outerNodes = outer ? nodesOf(outer) : [{ x: 0, weight: 1 }];
  const outerVector = outer?.vector ?? [0, 0];

  /** Adds one value of the outer variable to the sums [chance, density]. */
  const add = (sums: [number, number], radius: number, centre: Vector2, outerWeight: number) => {
    const offset = centre[0] * formB[0] + centre[1] * formB[1];
    const middle = centre[0] * d[0] + centre[1] * d[1];
    const span = Math.abs(reach * stepAcross);
    if (!(Math.abs(offset) < radius + span)) return;
    // The place across is radius·sin θ, the half chord radius·cos θ. Pieces end where the variable across passes a knot, and where an end
    // of the chord passes one of the law along: radius (±cos θ - slant sin θ) = knot + middle - slant·offset.
    const first = Math.asin(Math.max(-1, (offset - span) / radius));
    const last = Math.asin(Math.min(1, (offset + span) / radius));
    const angles = [first, last];
    for (const x of breaks) angles.push(Math.asin((offset + x * stepAcross) / radius));
    for (const knot of alongKnots) {
      const turn = Math.acos((knot + middle - slant * offset) / (radius * Math.sqrt(1 + slant * slant)));
      const tilt = Math.atan(slant);
      angles.push(turn - tilt, -turn - tilt, turn + tilt - Math.PI, Math.PI - turn + tilt);
    }
    const ends = angles.filter((angle) => angle >= first && angle <= last).sort((a, b) => a - b);
    for (let k = 1; k < ends.length; k += 1) {
      const from = ends[k - 1] as number;
      const half = ((ends[k] as number) - from) / 2;
      if (!(half > 0)) continue;
      for (const [j, node] of rule.nodes.entries()) {
        // Both ends may have a square-root singularity (arcsine).
        const inner = (Math.PI / 2) * node;
        const angle = from + half + half * Math.sin(inner);
        const x = (radius * Math.sin(angle) - offset) / stepAcross;
        const height = acrossDensity(Math.abs(x));
        if (!(height > 0)) continue;
        const growth =
          half * (Math.PI / 2) * Math.cos(inner) * (rule.weights[j] as number) * (radius / Math.abs(stepAcross)) * height * outerWeight;
        const chord = radius * Math.cos(angle);
        const place = -middle - x * stepAcross * slant;
        const [beyondHigh, atHigh] = signed(along, place + chord);
        const [beyondLow, atLow] = signed(along, place - chord);
        sums[0] += growth * Math.cos(angle) * (beyondLow - beyondHigh);
        sums[1] += growth * (atHigh + atLow);
      }
    }
  };
  return {
    evaluation: nanosecondsPerNode * outerNodes.length * (breaks.length + 2 * alongKnots.length) * rule.nodes.length,
    make: () => ({
      error,
      method: "conditioned on the dominating sources",
      evaluate(radius) {
        const sums: [number, number] = [0, 0];
        for (const { x, weight } of outerNodes) add(sums, radius, [mean[0] + x * outerVector[0], mean[1] + x * outerVector[1]], weight);
        return sums;
      },
    }),
  };
}

const nanosecondsPerNode = 150;

function signed(law: CentredLaw, a: number): readonly [tail: number, density: number] {
  const [tail, density] = law.evaluate(Math.abs(a));
  return [a < 0 ? 1 - tail : tail, density];
}

function mirrored(knots: readonly number[]): number[] {
  return knots.length > 0 ? [...knots.map((knot) => -knot), 0, ...knots] : [];
}

function nodesOf({ law, bends }: PlanarVariable): { x: number; weight: number }[] {
  const reach = reachOf(law);
  const even = Array.from({ length: outerPanels }, (_, k) => (k / outerPanels) * Math.min(reach, 4 * law.standardDeviation));
  const knots = [...even, ...law.knots, ...bends.filter((x) => x < reach), ...spread(law, reach), reach].sort((a, b) => a - b);
  const nodes: { x: number; weight: number }[] = [];
  for (let k = 1; k < knots.length; k += 1) {
    const from = knots[k - 1] as number;
    const half = ((knots[k] as number) - from) / 2;
    if (!(half > 0)) continue;
    for (const [j, node] of outerRule.nodes.entries()) {
      const inner = (Math.PI / 2) * node;
      const x = from + half + half * Math.sin(inner);
      const weight = half * (Math.PI / 2) * Math.cos(inner) * (outerRule.weights[j] as number) * law.evaluate(x)[1];
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

const negligible = 1e-10;

/** Panel ends for a smooth law, growing outwards. */
function spread(law: CentredLaw, reach: number): number[] {
  const ends: number[] = [];
  for (let x = 1.5 * law.standardDeviation; x < reach; x += Math.max(1.5 * law.standardDeviation, x / 2)) ends.push(x);
  return ends;
}
