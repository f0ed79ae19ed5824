import { matrixOf, multiply, pseudoInverse } from "../../base/matrix.ts";
import type { Distribution } from "../distribution.ts";
import { completeDistribution } from "../internals/completeDistribution.ts";
import { standardUncertaintyOf } from "../sourceDistribution.ts";
import { normalQuantile } from "../special/normalQuantile.ts";
import { Tape } from "../tape.ts";
import type { Uncertain } from "../uncertain.ts";
import { BlockSampler, type WordSource } from "./blockSampler.ts";
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
  /**
   * How far the bend moves the ends of the 95 % interval, the larger of the two, in standard deviations of the normal distribution whose
   * interval is as long: heavy tails may have no other.
   */
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
/** What a result leaves out of its linear form below this many standard deviations is rounding. */
const rounding = 1e-9;

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
  const components = [...new Set(results.flatMap((result) => result.components))];
  const indexOf = new Map(components.map((component, i) => [component, i]));
  const tape = new Tape(components);
  const bent = results.map(
    (result) => result.components.length > 1 || !tape.isLinear(indexOf.get(result.components[0] as Uncertain) as number),
  );
  if (!bent.includes(true)) return results.map(({ linear }) => unbent(linear));
  const standards = results.map(({ linear }) => standardOf(linear));
  const fits = results.map((): Fit[] => []);
  const names = namesByContribution(tape);
  const words = Array.from({ length: sets }, (_, set) => sobolWords((seed + set) >>> 0, names));
  // Every set is a block of its own.
  const sampler = new BlockSampler(tape.sources, seed, { wordsOf: (name, set, into) => (words[set] as WordSource)(name, 0, into) });
  const flat = components.map(() => new Float64Array(blockSize));
  const [wholeRoom, flatRoom] = [new Float64Array(blockSize), new Float64Array(blockSize)];
  for (let set = 0; set < sets; set++) {
    const draws = sampler.fill(set);
    const whole = tape.evaluate(draws, blockSize);
    flat.forEach((column, i) => {
      fillLinear(column, tape, i, draws);
    });
    results.forEach((result, k) => {
      if (!bent[k]) return;
      const at = result.components.map((component) => indexOf.get(component) as number);
      const of = (columns: readonly Float64Array[], room: Float64Array) =>
        resultOf(
          at.map((i) => columns[i] as Float64Array),
          room,
        );
      fits[k]?.push(fitOf(of(whole, wholeRoom), of(flat, flatRoom), standards[k] as Standard));
    });
  }
  return results.map(({ linear }, k) => (bent[k] ? refined(linear, standards[k] as Standard, fits[k] as Fit[]) : unbent(linear)));
}

/** What counts as one standard deviation from the middle: of the normal distribution that has the same 95 % interval. Heavy tails may have no other. */
interface Standard {
  readonly ends: readonly [lower: number, upper: number];
  readonly middle: number;
  readonly size: number;
}

function standardOf(linear: Distribution): Standard {
  const ends = linear.interval(0.95, "symmetric");
  return { ends, middle: (ends[0] + ends[1]) / 2, size: (ends[1] - ends[0]) / 2 / normalQuantile(0.975) };
}

/** The linear form is all that there is. */
function unbent(linear: Distribution): Refined {
  return { distribution: linear, nonlinearity: 0, scatter: 0, isTooCurved: false, failed: 0 };
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

/** The linear form of a component, point by point. */
function fillLinear(column: Float64Array, tape: Tape, output: number, draws: readonly Float64Array[]): void {
  column.fill((tape.outputs[output] as Uncertain).value);
  const sensitivities = tape.sensitivities(output);
  for (let i = 0; i < sensitivities.length; i++) {
    const sensitivity = sensitivities[i] as number;
    if (sensitivity !== 0)
      addDeviations(column, sensitivity, draws[i] as Float64Array, (tape.sources[i] as Tape["sources"][number]).estimate);
  }
}

/** Four in a round, which would cost as much as one of them: a block is a multiple of four. */
function addDeviations(to: Float64Array, factor: number, draws: Float64Array, estimate: number): void {
  for (let i = 0; i < to.length; i += 4) {
    to[i] = (to[i] as number) + factor * ((draws[i] as number) - estimate);
    to[i + 1] = (to[i + 1] as number) + factor * ((draws[i + 1] as number) - estimate);
    to[i + 2] = (to[i + 2] as number) + factor * ((draws[i + 2] as number) - estimate);
    to[i + 3] = (to[i + 3] as number) + factor * ((draws[i + 3] as number) - estimate);
  }
}

/** The column of a result from those of its components; a diameter is written into `room`, so that nothing is allocated set by set. */
function resultOf([x, y]: readonly Float64Array[], room: Float64Array): Float64Array {
  if (y === undefined) return x as Float64Array;
  doubledDistances(room, x as Float64Array, y);
  return room;
}

function doubledDistances(to: Float64Array, x: Float64Array, y: Float64Array): void {
  for (let i = 0; i < to.length; i++) to[i] = 2 * Math.sqrt((x[i] as number) * (x[i] as number) + (y[i] as number) * (y[i] as number));
}

/** What one set of points says: the conditional means as cubics in standard units, and moments. */
interface Fit {
  readonly first: Float64Array;
  readonly second: Float64Array;
  readonly meanOfRest: number;
  readonly covariance: number;
  readonly varianceOfRest: number;
  /** The largest difference between the result and its linear form. */
  readonly largest: number;
  /** Share of the points without a value. */
  readonly failed: number;
}

function fitOf(whole: Float64Array, flat: Float64Array, { middle, size }: Standard): Fit {
  // Σ zᵏ, Σ zᵏ D and Σ zᵏ D²: each in a variable of its own, since this is done point by point.
  let s1 = 0;
  let s2 = 0;
  let s3 = 0;
  let s4 = 0;
  let s5 = 0;
  let s6 = 0;
  let d0 = 0;
  let d1 = 0;
  let d2 = 0;
  let d3 = 0;
  let q0 = 0;
  let q1 = 0;
  let q2 = 0;
  let q3 = 0;
  let product = 0;
  let level = 0;
  let largest = 0;
  let count = 0;
  for (let i = 0; i < whole.length; i++) {
    const departure = (flat[i] as number) - middle;
    const d = (whole[i] as number) - (flat[i] as number);
    // A value that there is not.
    if (!(d - d === 0)) continue;
    count++;
    if (d > largest) largest = d;
    else if (-d > largest) largest = -d;
    product += d * departure;
    level += departure;
    let z = departure / size;
    if (z > farthest) z = farthest;
    else if (z < -farthest) z = -farthest;
    const zz = z * z;
    const zzz = zz * z;
    const square = d * d;
    s1 += z;
    s2 += zz;
    s3 += zzz;
    s4 += zz * zz;
    s5 += zzz * zz;
    s6 += zzz * zzz;
    d0 += d;
    d1 += z * d;
    d2 += zz * d;
    d3 += zzz * d;
    q0 += square;
    q1 += z * square;
    q2 += zz * square;
    q3 += zzz * square;
  }
  const powerSums = [count, s1, s2, s3, s4, s5, s6];
  const normal = matrixOf(powers, powers, (a, b) => powerSums[a + b] as number);
  const against = matrixOf(powers, 2, (a, column) => (column === 0 ? [d0, d1, d2, d3] : [q0, q1, q2, q3])[a] as number);
  const { entries } = multiply(pseudoInverse(normal, 1e-12 * count), against);
  const mean = d0 / count;
  return {
    first: Float64Array.from({ length: powers }, (_, k) => entries[2 * k] as number),
    second: Float64Array.from({ length: powers }, (_, k) => entries[2 * k + 1] as number),
    meanOfRest: mean,
    covariance: product / count - (level / count) * mean,
    varianceOfRest: Math.max(0, q0 / count - mean * mean),
    largest,
    failed: 1 - count / whole.length,
  };
}

function cubicAt(coefficients: Float64Array, z: number): number {
  const [a, b, c, d] = coefficients as unknown as readonly [number, number, number, number];
  return a + z * (b + z * (c + z * d));
}

function refined(linear: Distribution, standard: Standard, fits: readonly Fit[]): Refined {
  const failed = averageOf(fits.map((fit) => fit.failed));
  if (failed === 0 && fits.every(({ largest }) => largest <= rounding * standard.size)) return unbent(linear);
  const { ends, middle, size } = standard;
  const correctionsAt = (y: number) => correctionsOfSets(y, linear, standard, fits);
  const atEnds = ends.map((y) => {
    const corrections = correctionsAt(y);
    const unit = linear.density(y) * size;
    return { shift: Math.abs(averageOf(corrections)) / unit, scatter: scatterOf(corrections) / unit };
  });
  // Where no point had a value nothing is known, which is not the same as no bend.
  const nonlinearity = knownOrInfinite(Math.max(...atEnds.map(({ shift }) => shift)));
  const scatter = knownOrInfinite(Math.max(...atEnds.map((end) => end.scatter)));
  const grid = gridOfUnits.map((z) => correctionsAt(middle + z * size));
  const largest = Math.max(...grid.map((corrections) => Math.abs(averageOf(corrections))));
  const doubt = 2 * Math.max(...grid.map(scatterOf));
  // What does not stand out from its own scatter is left away, and counts as error.
  const isSeen = largest > doubt;
  const distribution = isSeen ? correctedDistribution(linear, standard, fits, doubt) : lessSure(linear, largest + doubt);
  return { distribution, nonlinearity, scatter, isTooCurved: !(nonlinearity <= tooCurved), failed };
}

/** The same with more error; its moments are left to be worked out when somebody asks, since those of a radius take longer than all the rest. */
function lessSure(linear: Distribution, error: number): Distribution {
  const { density, cumulative, quantile, interval, chanceWithin, method } = linear;
  return {
    get mean() {
      return linear.mean;
    },
    get standardDeviation() {
      return linear.standardDeviation;
    },
    density,
    cumulative,
    quantile,
    interval,
    chanceWithin,
    error: linear.error + error,
    method,
  };
}

/** Where corrections are looked at, in standard units. */
const gridOfUnits = [-3, -2.5, -2, -1.5, -1, -0.5, 0, 0.5, 1, 1.5, 2, 2.5, 3];

function averageOf(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0) / values.length;
}

/** Standard deviation of the average. */
function scatterOf(values: readonly number[]): number {
  const mean = averageOf(values);
  return Math.sqrt(values.reduce((total, value) => total + (value - mean) ** 2, 0) / (values.length - 1) / values.length);
}

function knownOrInfinite(value: number): number {
  return Number.isNaN(value) ? Number.POSITIVE_INFINITY : value;
}

/** -f m₁ + ½ (f m₂)' at y, by each set of points; the linear density is worked out once for all of them. */
function correctionsOfSets(y: number, linear: Distribution, { middle, size }: Standard, fits: readonly Fit[]): number[] {
  const step = size * 1e-3;
  const unitsAt = (x: number) => Math.max(-farthest, Math.min(farthest, (x - middle) / size));
  const [below, here, above] = [linear.density(y - step), linear.density(y), linear.density(y + step)];
  const bendOf = (second: Float64Array, x: number) => Math.max(0, cubicAt(second, unitsAt(x)));
  return fits.map(
    ({ first, second }) =>
      -here * cubicAt(first, unitsAt(y)) + (above * bendOf(second, y + step) - below * bendOf(second, y - step)) / (4 * step),
  );
}

function correctedDistribution(linear: Distribution, standard: Standard, fits: readonly Fit[], doubt: number): Distribution {
  const average = (part: (fit: Fit) => number) => averageOf(fits.map(part));
  const cumulative = (y: number) =>
    Math.min(1, Math.max(0, linear.cumulative(y) + averageOf(correctionsOfSets(y, linear, standard, fits))));
  const step = standard.size * 1e-3;
  const core = {
    mean: 0,
    standardDeviation: 0,
    density: (y: number) => Math.max(0, (cumulative(y + step) - cumulative(y - step)) / (2 * step)),
    cumulative,
    quantile: (p: number) => quantileNear(cumulative, p, linear, standard.size),
    error: linear.error + doubt,
    method: `${linear.method}, corrected for the bend of the model by ${fits.length} × ${blockSize} Sobol points`,
  };
  return {
    ...completeDistribution(core, false),
    get mean() {
      return linear.mean + average(({ meanOfRest }) => meanOfRest);
    },
    get standardDeviation() {
      const rest = 2 * average(({ covariance }) => covariance) + average(({ varianceOfRest }) => varianceOfRest);
      return Math.sqrt(Math.max(0, linear.standardDeviation ** 2 + rest));
    },
  };
}

/**
 * From the linear quantile by steps of the linear density, which is nearly the right one, kept within a bracket that shrinks: where the steps do
 * not close in, halving does.
 */
function quantileNear(cumulative: (y: number) => number, p: number, linear: Distribution, size: number): number {
  const start = linear.quantile(p);
  if (p <= 0 || p >= 1) return start;
  let [low, high] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  let y = start;
  let width = tooCurved * size;
  for (let k = 0; k < mostSteps; k++) {
    const excess = cumulative(y) - p;
    if (excess < 0) low = y;
    else high = y;
    const move = -excess / linear.density(y);
    if (Math.abs(move) <= closeEnough * size || high - low <= closeEnough * size)
      return y + (Math.abs(move) <= closeEnough * size ? move : 0);
    if (Math.abs(move) <= width && y + move > low && y + move < high) y += move;
    else if (low === Number.NEGATIVE_INFINITY) y -= width;
    else if (high === Number.POSITIVE_INFINITY) y += width;
    else y = (low + high) / 2;
    // A bracket is looked for in steps that grow.
    if (!(high - low < Number.POSITIVE_INFINITY)) width *= 2;
  }
  return y;
}

/** In standard units: far below what the correction is known to. */
const closeEnough = 1e-9;
const mostSteps = 200;
