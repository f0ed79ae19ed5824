import type { SourceDistribution } from "../sourceDistribution.ts";
import { type Covariance2, frameAlong, type Vector2 } from "./chords.ts";
import { conditionedLaw, type PlanarVariable } from "./conditionedLaw.ts";
import { addSource, noIngredients } from "./ingredients.ts";
import { linearLaw } from "./linearLaw.ts";
import type { PlanarIngredients } from "./planarIngredients.ts";
import type { RadialLaw } from "./radialLaw.ts";
import { heavyVariance } from "./radialGrids.ts";
import { sourceLaw } from "./sourceLaw.ts";
import { tabulatedLaw } from "./tabulatedLaw.ts";

/**
 * Chooses which sources are integrated directly: the weightiest along the chords of the disc, the next across them (or, where a normal part
 * does that, about both) and a third. What is left of the others joins the normal part, with its covariance.
 */
export function conditionedRadius(mean: Vector2, sum: PlanarIngredients): RadialLaw {
  const candidates = candidatesOf(sum);
  const [first] = candidates;
  if (!first) throw new RangeError("sum: expected a source that is not normal, got none");
  const size = Math.hypot(...first.vector);
  const d: Vector2 = [first.vector[0] / size, first.vector[1] / size];
  const parallel = candidates.filter(({ vector }) => Math.abs(vector[1] * d[0] - vector[0] * d[1]) <= 1e-12 * Math.hypot(...vector));
  const [second, third, ...others] = candidates.filter((candidate) => !parallel.includes(candidate));
  let covariance = sum.normal;
  const blur = frameAlong(d, [0, 0], covariance).sigmaB > 0 || others.length > 0;
  const replaced = [...(blur && third ? [third] : []), ...others];
  for (const { vector, variance } of replaced) covariance = plus(covariance, vector, variance);
  const { sigmaA, sigmaB, e } = frameAlong(d, [0, 0], covariance);
  const line = noIngredients();
  for (const { vector, distribution } of parallel) addSource(line, distribution, Math.hypot(...vector));
  line.normalVariance = sigmaA * sigmaA;
  const along = linearLaw(line);
  const normal: PlanarVariable = { vector: e, law: sourceLaw({ shape: "normal", standardDeviation: sigmaB }) };
  const chosen = [second, third].flatMap((candidate): PlanarVariable[] => (candidate ? [{ vector: candidate.vector, law: sourceLaw(candidate.distribution) }] : []));
  const [across, outer] = blur ? [normal, chosen[0]] : chosen;
  const error = (outer ? 1e-6 : 1e-9) + normalError(replaced, candidates, covariance);
  return conditionedLaw(mean, d, along.knots.length > 0 ? along : tabulatedLaw(along), across as PlanarVariable, outer, error);
}

interface Candidate {
  readonly vector: Vector2;
  readonly distribution: SourceDistribution;
  /** Of the unit distribution; a t with hardly any counts as `heavyVariance`. */
  readonly variance: number;
  /** Excess kurtosis of the distribution, at most 6 for a t. */
  readonly excess: number;
}

/** The sources that are not normal, in units of their vectors, weightiest first; a t with fourth moment missing before all others. */
function candidatesOf({ boxes, arcsines, students }: PlanarIngredients): Candidate[] {
  const all: Candidate[] = [
    ...boxes.map((vector) => ({ vector, distribution: { shape: "rectangular" as const, halfWidth: 1 }, variance: 1 / 3, excess: -1.2 })),
    ...arcsines.map((vector) => ({ vector, distribution: { shape: "arcsine" as const, halfWidth: 1 }, variance: 1 / 2, excess: -1.5 })),
    ...students.map(({ scale, degreesOfFreedom }) => ({
      vector: scale,
      distribution: { shape: "scaledT" as const, scale: 1, degreesOfFreedom },
      variance: degreesOfFreedom > 2 ? Math.min(heavyVariance, degreesOfFreedom / (degreesOfFreedom - 2)) : heavyVariance,
      excess: degreesOfFreedom > 5 ? 6 / (degreesOfFreedom - 4) : 6,
    })),
  ];
  const weight = ({ vector: [x, y], variance, excess }: Candidate) => (x * x + y * y) * variance * (excess > 2 ? 4 : 1);
  return all.sort((a, b) => weight(b) - weight(a));
}

/** First term of the Edgeworth series for a share s of the variance taken as normal, (excess/24) s² times the largest |He₃ φ|, 0.55. */
function normalError(replaced: readonly Candidate[], all: readonly Candidate[], normal: Covariance2): number {
  const power = ({ vector: [x, y], variance }: Candidate) => (x * x + y * y) * variance;
  const total = all.reduce((sum, candidate) => sum + power(candidate), normal[0] + normal[2]);
  return replaced.reduce((sum, candidate) => sum + (0.55 / 24) * Math.abs(candidate.excess) * (power(candidate) / total) ** 2, 0);
}

function plus([xx, xy, yy]: Covariance2, [x, y]: Vector2, variance: number): Covariance2 {
  return [xx + variance * x * x, xy + variance * x * y, yy + variance * y * y];
}
