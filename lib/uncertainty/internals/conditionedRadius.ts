import { distributionAt } from "./centredLaw.ts";
import { type Covariance2, frameAlong, type Vector2 } from "./chords.ts";
import { type ConditionedPlan, conditionedLaw, type PlanarVariable } from "./conditionedLaw.ts";
import { foldedLaw } from "./foldedLaw.ts";
import { addSource, type Ingredients, noIngredients } from "./ingredients.ts";
import { linearLaw } from "./linearLaw.ts";
import type { PlanarIngredients } from "./planarIngredients.ts";
import { heavyVariance } from "./radialGrids.ts";
import type { RadialLaw } from "./radialLaw.ts";
import { sourceLaw } from "./sourceLaw.ts";
import { tabulatedLaw } from "./tabulatedLaw.ts";

/**
 * Chooses which sources are integrated directly: the weightiest direction along the chords of the disc, the next across them (or, where a
 * normal part does that, about both) and a third. What is left of the others joins the normal part, with its covariance.
 *
 * @returns how, with its error and cost; `make` does the work
 */
export function planConditioned(
  mean: Vector2,
  sum: PlanarIngredients,
): { readonly error: number; readonly evaluation: number; make(): RadialLaw } {
  const directions = directionsOf(sum);
  const [first, second, third, ...others] = directions;
  if (!first) throw new RangeError("sum: expected a source that is not normal, got none");
  const d = first.direction;
  const line = normalLine(sum.normal);
  const normal: Covariance2 = line ? [0, 0, 0] : sum.normal;
  const blur = (!line && trace(normal) > 0) || others.length > 0;
  const replaced = [...(blur && third ? [third] : []), ...others];
  const covariance = replaced.reduce<Covariance2>(
    ([xx, xy, yy], { direction: [x, y], variance }) => [xx + variance * x * x, xy + variance * x * y, yy + variance * y * y],
    normal,
  );
  const { sigmaA, sigmaB, e } = frameAlong(d, [0, 0], covariance);
  const along = linearLaw({ ...first.sum, normalVariance: first.sum.normalVariance + sigmaA * sigmaA });
  const chosen = (blur ? [second] : [second, third]).flatMap((one): PlanarVariable[] => (one ? [variableOf(one)] : []));
  if (blur) chosen.unshift({ vector: e, law: sourceLaw({ shape: "normal", standardDeviation: sigmaB }), bends: [] });
  const [across, outer] = chosen;
  if (!across) {
    const place = distributionAt(mean[0] * d[0] + mean[1] * d[1], along);
    return { error: narrowest, evaluation: 1e4, make: () => foldedLaw(place, Math.abs(mean[1] * d[0] - mean[0] * d[1]), narrowest) };
  }
  const error = (outer ? 1e-6 : 1e-9) + normalError(replaced, directions, covariance);
  const bends = along.knots.length > 0 ? [] : bendsOf({ ...first.sum, normalVariance: first.sum.normalVariance + sigmaA * sigmaA });
  const isSmooth = along.knots.length === 0 && bends.length === 0;
  const plan: ConditionedPlan = { mean, d, along: isSmooth ? tabulatedLaw(along) : along, bends, across, outer, error };
  return { ...conditionedLaw(plan), error };
}

function variableOf({ direction, sum }: DirectedSum): PlanarVariable {
  const law = linearLaw(sum);
  return { vector: direction, law, bends: law.knots.length > 0 ? [] : bendsOf(sum) };
}

/** A bounded source that is this many times as wide as what blurs its edge has an edge that quadrature would step over. */
const sharp = 2;
/** More edges than those of this many sources run into each other. */
const mostSharp = 4;

/** About the edges of the wide bounded sources of a sum, as far as the others blur them. */
function bendsOf({ normalVariance, boxes, arcsines, students }: Ingredients): number[] {
  const bounded = [...boxes, ...arcsines].sort((a, b) => b - a);
  const smooth = normalVariance + students.reduce((sum, { scale }) => sum + scale * scale, 0);
  const blurOf = (count: number) => Math.sqrt(smooth + bounded.slice(count).reduce((sum, half) => sum + (half * half) / 3, 0));
  let count = 0;
  while (count < Math.min(mostSharp, bounded.length) && (bounded[count] as number) > sharp * blurOf(count + 1)) count += 1;
  if (count === 0) return [];
  const edges = bounded.slice(0, count).reduce<number[]>((sums, half) => sums.flatMap((sum) => [sum + half, sum - half]), [0]);
  const blur = blurOf(count);
  const places = edges
    .filter((edge) => edge >= 0)
    .flatMap((edge) => [0, 0.7, 1.5, 3, 6, 12].flatMap((steps) => [edge + steps * blur, edge - steps * blur]));
  return [...new Set(places.filter((place) => place > 0))].sort((a, b) => a - b);
}

interface DirectedSum {
  readonly direction: Vector2;
  /** The sources that move the point along it. */
  readonly sum: Ingredients;
  /** A t with hardly any counts with `heavyVariance`. */
  readonly variance: number;
  /** Fourth cumulant, a t with none counting as if it had an excess kurtosis of 6. */
  readonly fourth: number;
}

/** The sources that are not normal (and a normal part along one line), gathered by direction, weightiest first; far tails count more. */
function directionsOf({ normal, boxes, arcsines, students }: PlanarIngredients): DirectedSum[] {
  const gathered: { direction: Vector2; sum: Ingredients; variance: number; fourth: number }[] = [];
  const gather = (vector: Vector2, unitVariance: number, excess: number, add: (to: Ingredients, size: number) => void) => {
    const size = Math.hypot(...vector);
    const direction: Vector2 = [vector[0] / size, vector[1] / size];
    let entry = gathered.find(({ direction: [x, y] }) => Math.abs(x * direction[1] - y * direction[0]) <= sameDirection);
    if (!entry) {
      entry = { direction, sum: noIngredients(), variance: 0, fourth: 0 };
      gathered.push(entry);
    }
    add(entry.sum, size);
    entry.variance += unitVariance * size * size;
    entry.fourth += excess * (unitVariance * size * size) ** 2;
  };
  for (const vector of boxes) gather(vector, 1 / 3, -1.2, (to, size) => to.boxes.push(size));
  for (const vector of arcsines) gather(vector, 1 / 2, -1.5, (to, size) => to.arcsines.push(size));
  for (const { scale, degreesOfFreedom } of students) {
    const variance = degreesOfFreedom > 2 ? Math.min(heavyVariance, degreesOfFreedom / (degreesOfFreedom - 2)) : heavyVariance;
    const excess = degreesOfFreedom > 5 ? 6 / (degreesOfFreedom - 4) : 6;
    gather(scale, variance, excess, (to, size) => addSource(to, { shape: "scaledT", scale: 1, degreesOfFreedom }, size));
  }
  const line = normalLine(normal);
  if (line) gather(line, 1, 0, (to, size) => addSource(to, { shape: "normal", standardDeviation: 1 }, size));
  const weight = ({ variance, fourth }: DirectedSum) => variance + Math.sqrt(Math.max(0, fourth));
  return gathered.sort((a, b) => weight(b) - weight(a));
}

/** The vector along which a normal part moves the point, if it moves it along one line only. */
function normalLine([xx, xy, yy]: Covariance2): Vector2 | undefined {
  if (!(xx + yy > 0 && xx * yy - xy * xy <= 1e-15 * (xx + yy) ** 2)) return undefined;
  return xx > yy ? [Math.sqrt(xx), xy / Math.sqrt(xx)] : [xy / Math.sqrt(yy), Math.sqrt(yy)];
}

function trace([xx, , yy]: Covariance2): number {
  return xx + yy;
}

/** Sine of the angle between directions taken as one; the error of a chance is of that order. */
const sameDirection = 1e-10;
const narrowest = 1e-8;

/** First term of the Edgeworth series of what is taken as normal: fourth cumulant / 24 total variance², times the largest |He₃ φ|, 0.55. */
function normalError(replaced: readonly DirectedSum[], all: readonly DirectedSum[], normal: Covariance2): number {
  const total = all.reduce((sum, { variance }) => sum + variance, trace(normal));
  return replaced.reduce((sum, { fourth }) => sum + ((0.55 / 24) * Math.abs(fourth)) / total ** 2, 0);
}
