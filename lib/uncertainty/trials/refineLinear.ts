import { matrixOf, multiply, pseudoInverse } from "../../base/matrix.ts";
import type { Distribution } from "../distribution.ts";
import { completeDistribution } from "../internals/completeDistribution.ts";
import { standardUncertaintyOf } from "../sourceDistribution.ts";
import { Tape } from "../tape.ts";
import type { Uncertain } from "../uncertain.ts";
import { BlockSampler } from "./blockSampler.ts";
import { blockSize } from "./blockWords.ts";
import { sobolWords } from "./sobolWords.ts";

/** A result of which the distribution of the linearised value is known. */
export interface Linearised {
  /** One component, or X and Y of a point whose distance from the origin, doubled, is the result: the diameter used of a position zone. */
  readonly components: readonly Uncertain[];
  /** The exact distribution of the result with every component in its first-order form. */
  readonly linear: Distribution;
}

/** The distribution of a result with the bend of its model taken in. */
export interface Refined {
  /** With the correction where that is seen above its own scatter, else the linear one; its error has both. */
  readonly distribution: Distribution;
  /** How far the bend moves the ends of the 95 % interval, the larger of the two, in standard deviations. */
  readonly nonlinearity: number;
  /** Scatter of that from one set of points to another, in standard deviations. */
  readonly scatter: number;
  /** The model is too curved for a correction: only trials tell. */
  readonly isTooCurved: boolean;
  /** Share of the points at which the model had no value. */
  readonly failed: number;
}

/** Independent sets of points, whose scatter tells how well the correction is known. */
const sets = 4;
/** A correction larger than this, in standard deviations, is no small one. */
const tooCurved = 0.1;
/** Points farther out than this count as if they stood here: a heavy tail must not lead the regression. */
const farthest = 6;
const powers = 4;

/**
 * Second-order correction of linearised distributions by a few thousand evenly spread trials of the whole model.
 *
 * With L the linear form and D = Y - L what it leaves out, the chance up to y is
 *
 *     F(y) = F_L(y) - f_L(y) m₁(y) + ½ (f_L m₂)'(y),   m_k(y) = E[Dᵏ | L = y],
 *
 * the expansion of E[H(y - L - D)] to second order in D. Both conditional means are cubics in L, found by least squares in each of four sets
 * of scrambled Sobol points; how far the four disagree is the error of the correction.
 */
export function refineLinear(results: readonly Linearised[], seed: number): Refined[] {
  const tape = new Tape(results.flatMap(({ components }) => components));
  const fits = results.map((): Fit[] => []);
  const failures = results.map(() => 0);
  for (let set = 0; set < sets; set++) {
    const sampler = new BlockSampler(tape.sources, seed, sobolWords((seed + set) >>> 0, namesByContribution(tape)));
    const draws = sampler.fill(0);
    const columns = tape.evaluate(draws, blockSize);
    let first = 0;
    results.forEach(({ components, linear }, k) => {
      const indices = components.map((_, i) => first + i);
      first += components.length;
      const whole = resultOf(indices.map((i) => columns[i] as Float64Array));
      const flat = resultOf(indices.map((i) => linearColumn(tape, i, draws)));
      const fit = fitOf(whole, flat, linear);
      fits[k]?.push(fit);
      failures[k] = (failures[k] as number) + fit.failed / blockSize / sets;
    });
  }
  return results.map(({ linear }, k) => refined(linear, fits[k] as Fit[], failures[k] as number));
}

/** Sources in falling order of their largest share of any result. */
function namesByContribution(tape: Tape): string[] {
  const shares = tape.sources.map(() => 0);
  const sizes = tape.sources.map(({ distribution }) => standardUncertaintyOf(distribution));
  tape.outputs.forEach((_, output) => {
    const amounts = Array.from(tape.sensitivities(output), (sensitivity, i) => (sensitivity * (sizes[i] as number)) ** 2);
    const total = amounts.reduce((sum, amount) => sum + amount, 0);
    if (total > 0) for (const [i, amount] of amounts.entries()) shares[i] = Math.max(shares[i] as number, amount / total);
  });
  return tape.sources
    .map(({ id }, i) => ({ id, share: shares[i] as number }))
    .sort((a, b) => b.share - a.share || (a.id < b.id ? -1 : 1))
    .map(({ id }) => id);
}

function linearColumn(tape: Tape, output: number, draws: readonly Float64Array[]): Float64Array {
  const column = new Float64Array(blockSize).fill((tape.outputs[output] as Uncertain).value);
  tape.sensitivities(output).forEach((sensitivity, i) => {
    if (sensitivity !== 0)
      addDeviations(column, sensitivity, draws[i] as Float64Array, (tape.sources[i] as Tape["sources"][number]).estimate);
  });
  return column;
}

function addDeviations(to: Float64Array, factor: number, draws: Float64Array, estimate: number): void {
  for (let i = 0; i < to.length; i++) to[i] = (to[i] as number) + factor * ((draws[i] as number) - estimate);
}

function resultOf([x, y]: readonly Float64Array[]): Float64Array {
  const first = x as Float64Array;
  return y === undefined ? first : first.map((each, i) => 2 * Math.sqrt(each * each + (y[i] as number) * (y[i] as number)));
}

/** What one set of points says: the conditional means as cubics in standard units, and moments. */
interface Fit {
  readonly first: Float64Array;
  readonly second: Float64Array;
  readonly meanOfRest: number;
  readonly covariance: number;
  readonly varianceOfRest: number;
  readonly failed: number;
}

function fitOf(whole: Float64Array, flat: Float64Array, linear: Distribution): Fit {
  const { mean: middle, standardDeviation } = linear;
  // Σ zᵏ, Σ zᵏ D and Σ zᵏ D².
  const powerSums = new Float64Array(2 * powers - 1);
  const withRest = new Float64Array(powers);
  const withSquare = new Float64Array(powers);
  let failed = 0;
  let count = 0;
  let rest = 0;
  let squares = 0;
  let product = 0;
  let level = 0;
  for (let i = 0; i < whole.length; i++) {
    const y = whole[i] as number;
    if (!Number.isFinite(y)) {
      failed++;
      continue;
    }
    count++;
    const departure = (flat[i] as number) - middle;
    const d = y - (flat[i] as number);
    rest += d;
    squares += d * d;
    product += d * departure;
    level += departure;
    const z = Math.max(-farthest, Math.min(farthest, departure / standardDeviation));
    let power = 1;
    for (let k = 0; k < powerSums.length; k++, power *= z) {
      powerSums[k] = (powerSums[k] as number) + power;
      if (k >= powers) continue;
      withRest[k] = (withRest[k] as number) + power * d;
      withSquare[k] = (withSquare[k] as number) + power * d * d;
    }
  }
  const normal = matrixOf(powers, powers, (a, b) => powerSums[a + b] as number);
  const against = matrixOf(powers, 2, (a, column) => (column === 0 ? withRest : withSquare)[a] as number);
  const { entries } = multiply(pseudoInverse(normal, 1e-12 * count), against);
  const mean = rest / count;
  return {
    first: Float64Array.from({ length: powers }, (_, k) => entries[2 * k] as number),
    second: Float64Array.from({ length: powers }, (_, k) => entries[2 * k + 1] as number),
    meanOfRest: mean,
    covariance: product / count - (level / count) * mean,
    varianceOfRest: Math.max(0, squares / count - mean * mean),
    failed,
  };
}

function standardised(y: number, { mean, standardDeviation }: Distribution): number {
  return Math.max(-farthest, Math.min(farthest, (y - mean) / standardDeviation));
}

function cubicAt(coefficients: Float64Array, z: number): number {
  const [a, b, c, d] = coefficients as unknown as readonly [number, number, number, number];
  return a + z * (b + z * (c + z * d));
}

function refined(linear: Distribution, fits: readonly Fit[], failed: number): Refined {
  const { standardDeviation } = linear;
  const corrections = fits.map((fit) => (y: number) => correctionAt(y, linear, fit));
  const averageAt = (y: number) => corrections.reduce((total, correction) => total + correction(y), 0) / fits.length;
  const scatterAt = (y: number) => {
    const values = corrections.map((correction) => correction(y));
    const mean = values.reduce((total, value) => total + value, 0) / values.length;
    return Math.sqrt(values.reduce((total, value) => total + (value - mean) ** 2, 0) / (values.length - 1) / values.length);
  };
  const ends = linear.interval(0.95, "symmetric");
  const shifts = ends.map((y) => Math.abs(averageAt(y)) / linear.density(y) / standardDeviation);
  const scatters = ends.map((y) => scatterAt(y) / linear.density(y) / standardDeviation);
  // Where no point had a value nothing is known, which is not the same as no bend.
  const nonlinearity = knownOrInfinite(Math.max(...shifts));
  const scatter = knownOrInfinite(Math.max(...scatters));
  const grid = [0.001, 0.005, 0.025, 0.1, 0.25, 0.5, 0.75, 0.9, 0.975, 0.995, 0.999].map((p) => linear.quantile(p));
  const largest = Math.max(...grid.map((y) => Math.abs(averageAt(y))));
  const doubt = 2 * Math.max(...grid.map(scatterAt));
  // What does not stand out from its own scatter is left away, and counts as error.
  const isSeen = largest > doubt;
  const distribution = isSeen
    ? correctedDistribution(linear, averageAt, fits, doubt)
    : { ...linear, error: linear.error + largest + doubt };
  return { distribution, nonlinearity, scatter, isTooCurved: !(nonlinearity <= tooCurved), failed };
}

function knownOrInfinite(value: number): number {
  return Number.isNaN(value) ? Number.POSITIVE_INFINITY : value;
}

/** -f m₁ + ½ (f m₂)' at y. */
function correctionAt(y: number, linear: Distribution, { first, second }: Fit): number {
  const step = linear.standardDeviation * 1e-3;
  const bendAt = (x: number) => linear.density(x) * Math.max(0, cubicAt(second, standardised(x, linear)));
  return -linear.density(y) * cubicAt(first, standardised(y, linear)) + (bendAt(y + step) - bendAt(y - step)) / (4 * step);
}

function correctedDistribution(
  linear: Distribution,
  correctionOf: (y: number) => number,
  fits: readonly Fit[],
  doubt: number,
): Distribution {
  const average = (part: (fit: Fit) => number) => fits.reduce((total, fit) => total + part(fit), 0) / fits.length;
  const cumulative = (y: number) => Math.min(1, Math.max(0, linear.cumulative(y) + correctionOf(y)));
  const step = linear.standardDeviation * 1e-3;
  const variance =
    linear.standardDeviation ** 2 + 2 * average(({ covariance }) => covariance) + average(({ varianceOfRest }) => varianceOfRest);
  return completeDistribution(
    {
      mean: linear.mean + average(({ meanOfRest }) => meanOfRest),
      standardDeviation: Math.sqrt(Math.max(0, variance)),
      density: (y) => Math.max(0, (cumulative(y + step) - cumulative(y - step)) / (2 * step)),
      cumulative,
      quantile: (p) => quantileNear(cumulative, p, linear),
      error: linear.error + doubt,
      method: `${linear.method}, corrected for the bend of the model by ${fits.length} × ${blockSize} Sobol points`,
    },
    false,
  );
}

/** By halving, from an interval about the linear quantile that is widened until it holds the answer. */
function quantileNear(cumulative: (y: number) => number, p: number, linear: Distribution): number {
  const start = linear.quantile(p);
  if (p <= 0 || p >= 1) return start;
  let width = tooCurved * linear.standardDeviation;
  let [low, high] = [start - width, start + width];
  for (let k = 0; k < 60 && cumulative(low) > p; k++, width *= 2) low -= width;
  for (let k = 0; k < 60 && cumulative(high) < p; k++, width *= 2) high += width;
  for (let k = 0; k < 60; k++) {
    const middle = (low + high) / 2;
    if (cumulative(middle) < p) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
