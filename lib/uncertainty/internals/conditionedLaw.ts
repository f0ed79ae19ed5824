import { gaussLegendre } from "../special/gaussLegendre.ts";
import { allKnots, type CentredLaw, densityAt, type HalfLaw, lawAt, lowerHalfOf } from "./centredLaw.ts";
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
  const formB: Vector2 = [-d[1], d[0]];
  const stepAcross = across.vector[0] * formB[0] + across.vector[1] * formB[1];
  const slant = (across.vector[0] * d[0] + across.vector[1] * d[1]) / stepAcross;
  const { standardDeviation } = across.law;
  const breaksAbove = breaksOf(across.law, standardDeviation, across.bends);
  const breaksBelow = breaksOf(lowerHalfOf(across.law), standardDeviation, across.bends);
  const breaks = [...breaksBelow.map((x) => -x), 0, ...breaksAbove];
  const limits = [-(breaksBelow.at(-1) as number) * stepAcross, (breaksAbove.at(-1) as number) * stepAcross];
  const [least, most] = [Math.min(...limits), Math.max(...limits)];
  const isSmooth = along.knots.length + lowerHalfOf(along).knots.length + bends.length === 0;
  const rule = gaussLegendre(!isSmooth || !across.law.unimodal || across.law.lowerHalf ? 20 : 14);
  const alongKnots = isSmooth ? [] : [...allKnots(along), ...bends, ...bends.map((bend) => -bend)];
  const outerNodes = outer ? nodesOf(outer) : [{ x: 0, weight: 1 }];
  const outerVector = outer?.vector ?? [0, 0];

  /** Adds one value of the outer variable to the sums [chance, density]. */
  const add = (sums: [number, number], radius: number, centre: Vector2, outerWeight: number) => {
    const offset = centre[0] * formB[0] + centre[1] * formB[1];
    const middle = centre[0] * d[0] + centre[1] * d[1];
    if (!(offset + least < radius && offset + most > -radius)) return;
    // The place across is radius·sin θ, the half chord radius·cos θ. Pieces end where the variable across passes a knot, and where an end
    // of the chord passes one of the law along: radius (±cos θ - slant sin θ) = knot + middle - slant·offset.
    const first = Math.asin(Math.max(-1, (offset + least) / radius));
    const last = Math.asin(Math.min(1, (offset + most) / radius));
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
        const height = densityAt(across.law, x);
        if (!(height > 0)) continue;
        const growth =
          half * (Math.PI / 2) * Math.cos(inner) * (rule.weights[j] as number) * (radius / Math.abs(stepAcross)) * height * outerWeight;
        const chord = radius * Math.cos(angle);
        const place = -middle - x * stepAcross * slant;
        const [beyondHigh, atHigh] = lawAt(along, place + chord);
        const [beyondLow, atLow] = lawAt(along, place - chord);
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

/** Ends of the panels on one side of the law, the last being its reach. */
function breaksOf(half: HalfLaw, standardDeviation: number, bends: readonly number[]): number[] {
  const reach = reachOf(half, standardDeviation);
  return [
    ...half.knots.filter((x) => x < reach),
    ...bends.filter((x) => x < reach),
    ...(Number.isFinite(half.halfWidth) ? [] : spread(standardDeviation, reach)),
    reach,
  ];
}

function nodesOf({ law, bends }: PlanarVariable): { x: number; weight: number }[] {
  const above = nodesOfHalf(law, law.standardDeviation, bends);
  const below = law.lowerHalf ? nodesOfHalf(law.lowerHalf, law.standardDeviation, bends) : above;
  return [...above, ...below.map(({ x, weight }) => ({ x: -x, weight }))];
}

function nodesOfHalf(side: HalfLaw, standardDeviation: number, bends: readonly number[]): { x: number; weight: number }[] {
  const reach = reachOf(side, standardDeviation);
  const even = Array.from({ length: outerPanels }, (_, k) => (k / outerPanels) * Math.min(reach, 4 * standardDeviation));
  const knots = [...even, ...side.knots, ...bends.filter((x) => x < reach), ...spread(standardDeviation, reach), reach].sort(
    (a, b) => a - b,
  );
  const nodes: { x: number; weight: number }[] = [];
  for (let k = 1; k < knots.length; k += 1) {
    const from = knots[k - 1] as number;
    const half = ((knots[k] as number) - from) / 2;
    if (!(half > 0)) continue;
    for (const [j, node] of outerRule.nodes.entries()) {
      const inner = (Math.PI / 2) * node;
      const x = from + half + half * Math.sin(inner);
      const weight = half * (Math.PI / 2) * Math.cos(inner) * (outerRule.weights[j] as number) * side.evaluate(x)[1];
      nodes.push({ x, weight });
    }
  }
  return nodes;
}

const outerRule = gaussLegendre(10);
const outerPanels = 8;

/** Where the law ends, or leaves no more than `negligible`. */
function reachOf(half: HalfLaw, standardDeviation: number): number {
  let reach = standardDeviation;
  while (reach < half.halfWidth && half.evaluate(reach)[0] > negligible) reach *= 1.3;
  return Math.min(reach, half.halfWidth);
}

const negligible = 1e-10;

/** Panel ends for a smooth law, growing outwards. */
function spread(standardDeviation: number, reach: number): number[] {
  const ends: number[] = [];
  for (let x = 1.5 * standardDeviation; x < reach; x += Math.max(1.5 * standardDeviation, x / 2)) ends.push(x);
  return ends;
}
