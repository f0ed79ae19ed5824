import { gaussLegendre } from "../special/gaussLegendre.ts";
import { studentDensity } from "../special/studentT.ts";
import { tailOf } from "./nearNormal.ts";

interface Term {
  readonly scale: number;
  readonly degreesOfFreedom: number;
}

/**
 * Beyond this, to either side, a sum of independent t terms carries less than `tolerance`.
 *
 * Half of the tolerance is for a single term beyond its own reach. The rest is for many terms together: cut off there they have an E e^(sX), and
 * P(Z > z) <= e^(-sz) Π E e^(sX) (Chernoff's bound, Annals of Mathematical Statistics 23 (1952) 493-507) for every s, of which about the best is taken.
 */
export function studentReach(terms: readonly Term[], tolerance: number): number {
  const seen = terms.filter(({ scale }) => scale !== 0);
  const [only] = seen;
  if (only === undefined) return 0;
  if (seen.length === 1) return Math.abs(only.scale) * tailOf(only.degreesOfFreedom, tolerance);
  const cut = seen.map(({ scale, degreesOfFreedom }) => ({
    size: Math.abs(scale),
    law: cutOff(degreesOfFreedom, tolerance / (2 * seen.length)),
  }));
  const logarithm = Math.log(2 / tolerance);
  let endToEnd = 0;
  let variance = 0;
  for (const { size, law } of cut) {
    endToEnd += size * law.reach;
    variance += size * size * law.variance;
  }
  const reachBy = (s: number) => {
    let exponent = logarithm;
    for (const { size, law } of cut) exponent += logMoment(law, s * size);
    return exponent / s;
  };
  // The best s lies between what would do for terms that all reach their ends and for normal ones; the bound rises to either side of it.
  let low = Math.log(logarithm / endToEnd);
  let high = Math.max(low, 0.5 * Math.log((2 * logarithm) / variance));
  let least = endToEnd;
  for (let step = 0; step < searchSteps; step += 1) {
    const third = (high - low) / 3;
    const [nearer, farther] = [reachBy(Math.exp(low + third)), reachBy(Math.exp(high - third))];
    least = Math.min(least, nearer, farther);
    if (nearer < farther) high -= third;
    else low += third;
  }
  return least;
}

const searchSteps = 8;

/** A standard t without what lies farther out than `reach`. */
interface CutOff {
  readonly reach: number;
  readonly variance: number;
  /** ln E e^(θX) at θ·reach = 2^(k / perOctave - octavesBelow). */
  readonly logMoments: Float64Array;
}

/** Straight between the values over ln θ, in which it is convex: never too small. */
function logMoment({ reach, logMoments }: CutOff, theta: number): number {
  const place = (Math.log2(theta * reach) + octavesBelow) * perOctave;
  if (place < 0) return (logMoments[0] as number) * 4 ** (place / perOctave);
  const k = Math.floor(place);
  if (k + 1 >= logMoments.length) return Number.POSITIVE_INFINITY;
  const from = logMoments[k] as number;
  return from + (place - k) * ((logMoments[k + 1] as number) - from);
}

const perOctave = 4;
const octavesBelow = 6;
const octavesAbove = 7;

function cutOff(degreesOfFreedom: number, chance: number): CutOff {
  const key = `${degreesOfFreedom} ${chance}`;
  const known = cutOffs.get(key);
  if (known) return known;
  const reach = tailOf(degreesOfFreedom, chance);
  // In v = arsinh x: even steps at the middle, and of one size with x far out.
  const end = Math.asinh(reach);
  const xs = rule.nodes.map((node) => Math.sinh((end * (1 + node)) / 2));
  const weights = xs.map((x, k) => end * (rule.weights[k] as number) * studentDensity(x, degreesOfFreedom) * Math.sqrt(1 + x * x));
  const logMoments = Float64Array.from({ length: (octavesBelow + octavesAbove) * perOctave + 1 }, (_, k) => {
    const theta = 2 ** (k / perOctave - octavesBelow) / reach;
    let moment = 0;
    for (let i = 0; i < xs.length; i += 1) moment += (weights[i] as number) * 2 * Math.sinh((theta * (xs[i] as number)) / 2) ** 2;
    return Math.log1p(moment);
  });
  const variance = xs.reduce((sum, x, k) => sum + (weights[k] as number) * x * x, 0);
  const made = { reach, variance, logMoments };
  if (cutOffs.size >= mostCutOffs) cutOffs.clear();
  cutOffs.set(key, made);
  return made;
}

const rule = gaussLegendre(40);
/** A memory of pure values: it changes no result, only the time. */
const cutOffs = new Map<string, CutOff>();
const mostCutOffs = 200;
