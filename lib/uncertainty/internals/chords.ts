import { gaussLegendre } from "../special/gaussLegendre.ts";

export type Vector2 = readonly [x: number, y: number];
export type Covariance2 = readonly [xx: number, xy: number, yy: number];

/**
 * Skew coordinates for a cloud of points about `mean`: V = mean + a·d + b·e, where d is a unit vector, a and b are uncorrelated, and b is
 * the distance from the line through the mean along d. A disc about the origin is then a bundle of chords along d, one for each b.
 */
export interface ChordFrame {
  readonly mean: Vector2;
  readonly d: Vector2;
  readonly e: Vector2;
  /** The linear forms that give a and b of a deviation from the mean. */
  readonly formA: Vector2;
  readonly formB: Vector2;
  readonly sigmaA: number;
  readonly sigmaB: number;
  /** Quadrature nodes that resolve how the chord ends cross the cloud. */
  readonly nodes: number;
}

/** One chord of the disc of the radius asked for: of weight `weight` (an element of b, as `radius·weightPerRadius` its cosine). */
export interface Chord {
  readonly b: number;
  readonly low: number;
  readonly high: number;
  /** Element db. */
  readonly weight: number;
  /** db times the rate at which either end moves outward as the radius grows. */
  readonly growth: number;
}

/**
 * The frame in which the disc's edge runs least steeply along the cloud: chords along the long axis of the cloud, or along the mean where the
 * cloud lies far from the origin with its long axis along the edge.
 */
export function chordFrame(mean: Vector2, covariance: Covariance2): ChordFrame {
  const [xx, xy, yy] = covariance;
  const turn = 0.5 * Math.atan2(2 * xy, xx - yy);
  const axis: Vector2 = [Math.cos(turn), Math.sin(turn)];
  const distance = Math.hypot(...mean);
  const along = frameAlong(axis, mean, covariance);
  if (!(distance > along.sigmaA)) return along;
  const across = frameAlong([mean[0] / distance, mean[1] / distance], mean, covariance);
  return across.nodes < along.nodes ? across : along;
}

/** The frame with chords along the unit vector `d`. */
export function frameAlong(d: Vector2, mean: Vector2, [xx, xy, yy]: Covariance2): ChordFrame {
  const formB: Vector2 = [-d[1], d[0]];
  const cx = xx * formB[0] + xy * formB[1];
  const cy = xy * formB[0] + yy * formB[1];
  const varianceB = Math.max(0, cx * formB[0] + cy * formB[1]);
  // e = Σ formB / var b makes a and b uncorrelated; without spread in b any e will do.
  const slant = varianceB > 0 ? (cx * d[0] + cy * d[1]) / varianceB : 0;
  const e: Vector2 = [formB[0] + slant * d[0], formB[1] + slant * d[1]];
  const formA: Vector2 = [d[0] - slant * formB[0], d[1] - slant * formB[1]];
  const varianceA = Math.max(0, formA[0] * formA[0] * xx + 2 * formA[0] * formA[1] * xy + formA[1] * formA[1] * yy);
  const frame = { mean, d, e, formA, formB, sigmaA: Math.sqrt(varianceA), sigmaB: Math.sqrt(varianceB), nodes: leastNodes };
  return { ...frame, nodes: Math.min(mostNodes, leastNodes + Math.ceil(nodesPerSwing * swing(frame))) };
}

/** The chords of the disc |V| <= radius that meet |b| <= reach, with weights for an integral over b. */
export function chordsOf(frame: ChordFrame, radius: number, reach: number): Chord[] {
  const core = coreSpread * frame.sigmaB;
  if (!(reach > 1.2 * core)) return chordsBetween(frame, radius, -reach, reach, frame.nodes);
  // A cloud with far tails: its core, and ever longer pieces outwards.
  const chords = chordsBetween(frame, radius, -core, core, frame.nodes);
  for (let from = core; from < reach; from *= 2) {
    const to = Math.min(reach, 2 * from);
    chords.push(...chordsBetween(frame, radius, from, to, tailNodes), ...chordsBetween(frame, radius, -to, -from, tailNodes));
  }
  return chords;
}

function chordsBetween({ mean, d, e, formB }: ChordFrame, radius: number, from: number, to: number, nodes: number): Chord[] {
  const centre = mean[0] * formB[0] + mean[1] * formB[1];
  const start = Math.max(-radius, centre + from);
  const end = Math.min(radius, centre + to);
  if (!(start < end)) return [];
  // The distance from the origin is radius·sin θ and the half chord radius·cos θ: smooth even where a chord shrinks to nothing.
  const first = Math.asin(start / radius);
  const last = Math.asin(end / radius);
  const along = mean[0] * d[0] + mean[1] * d[1];
  const slant = e[0] * d[0] + e[1] * d[1];
  const rule = gaussLegendre(nodes);
  return rule.nodes.map((node, k) => {
    const angle = (first + last) / 2 + ((last - first) / 2) * node;
    const b = radius * Math.sin(angle) - centre;
    const half = radius * Math.cos(angle);
    const growth = ((last - first) / 2) * (rule.weights[k] as number) * radius;
    const middle = -along - b * slant;
    return { b, low: middle - half, high: middle + half, weight: growth * Math.cos(angle), growth };
  });
}

/** Enough for 1e-9 where the edge of the disc is gentle against the cloud. */
const leastNodes = 48;
const mostNodes = 200;
const tailNodes = 20;
/** Standard deviations of the core of the cloud. */
const coreSpread = 7;
const nodesPerSwing = 3;

/** By how many standard deviations of a the end of a chord moves while b crosses the cloud, for the circle through the mean. */
function swing({ mean, d, e, formB, sigmaA, sigmaB }: ChordFrame): number {
  const radius = Math.hypot(...mean);
  const centre = mean[0] * formB[0] + mean[1] * formB[1];
  const ends = [-3, -1.5, 0, 1.5, 3].map((step) => {
    const b = step * sigmaB;
    return (
      Math.sqrt(Math.max(0, radius * radius - (centre + b) ** 2)) * Math.sign(mean[0] * d[0] + mean[1] * d[1] || 1) -
      b * (e[0] * d[0] + e[1] * d[1])
    );
  });
  const range = Math.max(...ends) - Math.min(...ends);
  return range > 0 ? range / sigmaA : 0;
}
