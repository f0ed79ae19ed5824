import type { SourceDistribution } from "../sourceDistribution.ts";
import { distributionAt, lowerHalfOf } from "./centredLaw.ts";
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
  const hasKnots = along.knots.length + lowerHalfOf(along).knots.length > 0;
  const bends = hasKnots ? [] : bendsOf({ ...first.sum, normalVariance: first.sum.normalVariance + sigmaA * sigmaA });
  const isSmooth = !hasKnots && bends.length === 0;
  const alongChords = isSmooth ? tabulatedLaw(along) : along;
  // A chord has two ends.
  const error = (outer ? 1e-6 : 1e-9) + 2 * alongChords.error + normalError(replaced, directions, sum.normal);
  const plan: ConditionedPlan = { mean, d, along: alongChords, bends, across, outer, error };
  return { ...conditionedLaw(plan), error };
}

function variableOf({ direction, sum }: DirectedSum): PlanarVariable {
  const law = linearLaw(sum);
  return { vector: direction, law, bends: law.knots.length + lowerHalfOf(law).knots.length > 0 ? [] : bendsOf(sum) };
}

/** A bounded source that is this many times as wide as what blurs its edge has an edge that quadrature would step over. */
const sharp = 2;
/** More edges than those of this many sources run into each other. */
const mostSharp = 4;

/** About the edges of the wide bounded sources of a sum, as far as the others blur them. */
function bendsOf({ normalVariance, boxes, arcsines, students, shaped }: Ingredients): number[] {
  const bounded = [...boxes, ...arcsines, ...shaped.map(({ scale }) => Math.abs(scale))].sort((a, b) => b - a);
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
  /** Third cumulant; 0 unless some are skewed. */
  readonly third: number;
}

/** The sources that are not normal (and a normal part along one line), gathered by direction, weightiest first; far tails count more. */
function directionsOf({ normal, boxes, arcsines, students, shaped }: PlanarIngredients): DirectedSum[] {
  const gathered: { direction: Vector2; sum: Ingredients; variance: number; fourth: number; third: number }[] = [];
  const gather = (vector: Vector2, unitVariance: number, excess: number) => {
    const size = Math.hypot(...vector);
    const direction: Vector2 = [vector[0] / size, vector[1] / size];
    let entry = gathered.find(({ direction: [x, y] }) => Math.abs(x * direction[1] - y * direction[0]) <= sameDirection);
    if (!entry) {
      entry = { direction, sum: noIngredients(), variance: 0, fourth: 0, third: 0 };
      gathered.push(entry);
    }
    entry.variance += unitVariance * size * size;
    entry.fourth += excess * (unitVariance * size * size) ** 2;
    const sign = Math.sign(direction[0] * entry.direction[0] + direction[1] * entry.direction[1]);
    return { entry, sum: entry.sum, sensitivity: sign * size };
  };
  for (const vector of boxes) addTo(gather(vector, 1 / 3, -1.2), { shape: "rectangular", halfWidth: 1 });
  for (const vector of arcsines) addTo(gather(vector, 1 / 2, -1.5), { shape: "arcsine", halfWidth: 1 });
  for (const { scale, degreesOfFreedom } of students) {
    const variance = degreesOfFreedom > 2 ? Math.min(heavyVariance, degreesOfFreedom / (degreesOfFreedom - 2)) : heavyVariance;
    const excess = degreesOfFreedom > 5 ? 6 / (degreesOfFreedom - 4) : 6;
    addTo(gather(scale, variance, excess), { shape: "scaledT", scale: 1, degreesOfFreedom });
  }
  for (const { scale, shape } of shaped) {
    const gathered = gather(scale, shape.variance, shape.excess);
    addTo(gathered, shape.distribution);
    // The third cumulant of an exponential.
    if (shape.angle) gathered.entry.third += 2 * gathered.sensitivity ** 3;
  }
  const line = normalLine(normal);
  if (line) addTo(gather(line, 1, 0), { shape: "normal", standardDeviation: 1 });
  const weight = ({ variance, fourth, third }: DirectedSum) => variance + Math.sqrt(Math.max(0, fourth)) + Math.cbrt(third) ** 2;
  return gathered.sort((a, b) => weight(b) - weight(a));
}

function addTo({ sum, sensitivity }: { sum: Ingredients; sensitivity: number }, distribution: SourceDistribution): void {
  addSource(sum, distribution, sensitivity);
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

/**
 * First terms of the Edgeworth series of what is taken as normal, along the line where each shows most beside all that is there: fourth cumulant / 24
 * variance², times the largest |He₃ φ|, 0.55; third cumulant / 6 variance^(3/2), times the largest |He₂ φ|, 0.40.
 */
function normalError(replaced: readonly DirectedSum[], all: readonly DirectedSum[], normal: Covariance2): number {
  if (replaced.length === 0) return 0;
  // A normal part along one line is among the directions.
  let [xx, xy, yy] = normalLine(normal) ? [0, 0, 0] : normal;
  for (const { direction, variance } of all) {
    xx += variance * direction[0] * direction[0];
    xy += variance * direction[0] * direction[1];
    yy += variance * direction[1] * direction[1];
  }
  const determinant = xx * yy - xy * xy;
  const error = replaced.reduce((sum, { direction: [x, y], fourth, third }) => {
    // The largest (d·e)² / variance along e, over all e.
    const ratio = (yy * x * x - 2 * xy * x * y + xx * y * y) / determinant;
    return sum + (0.55 / 24) * Math.abs(fourth) * ratio ** 2 + (0.4 / 6) * Math.abs(third) * ratio ** 1.5;
  }, 0);
  return Math.min(1, error);
}
