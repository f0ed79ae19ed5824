import { addSource, characteristicAt, type Ingredients, noIngredients } from "./internals/ingredients.ts";
import { normalDiscChance } from "./normalDiscChance.ts";
import { type RadialTerm, radialDistribution } from "./radialDistribution.ts";
import { type SourceDistribution, standardUncertaintyOf } from "./sourceDistribution.ts";
import { besselJ1 } from "./special/besselJ.ts";
import { studentQuantile } from "./special/studentT.ts";

/** A chance, and a bound of its absolute error. */
export interface ChanceWithError {
  readonly chance: number;
  readonly error: number;
}

/** How many standard deviations the cloud is taken to reach. */
const reachDeviations = 7;
/** Chance of a heavy tail beyond the box. */
const cutTail = 1e-8;
/** Exponent beyond which the normal part has silenced the characteristic function: e^-19 is 6e-9. */
const silence = 19;
/** A source with a smaller share of the variance in every direction changes the shape by less than its square: it counts as normal. */
const smallShare = 0.003;
/** Excess kurtosis (at most 1.5 in magnitude) over 4!, times the largest value of the derivatives that it multiplies: first Edgeworth term. */
const shapeEffect = 0.1;
/** Small shares count as normal only while all of them together change less than this. */
const mostError = 3e-6;
/** A source with a smaller share of the variance of one axis acts along the other axis alone. */
const asideShare = 1e-6;
/** Degrees of freedom from which a small t source may count as normal too. */
const nearlyNormal = 30;
/** More samples than this, and the whole distribution is the better way. */
const mostSamples = 8000;

/**
 * The chance that the point (x, y) = mean + Σ coefficientᵢ Xᵢ lies within a
 * radius of the origin: one number of `radialDistribution`, at a small part of its
 * cost, for tables of many characteristics.
 *
 * The density is a Fourier series on a box that holds disc and cloud; its
 * coefficients are samples of the joint characteristic function, those of the
 * disc are 2πR·J1(Rρ)/ρ (DLMF 10.9.2 integrated over the radius), and the chance
 * is the sum of their products. Sources that act along one axis only, most of
 * them, enter through a row or a column. Where the normal part is too small to
 * silence the series soon, or tails are too heavy for a box, the whole
 * distribution answers.
 *
 * @throws RangeError as radialDistribution, and for a radius that is not a number of 0 or more
 */
export function radialChance(mean: readonly [x: number, y: number], terms: readonly RadialTerm[], radius: number): ChanceWithError {
  if (!(radius >= 0)) throw new RangeError(`radius: expected >= 0, got ${radius}`);
  return seriesChance(mean, terms, radius) ?? wholeChance(mean, terms, radius);
}

function wholeChance(mean: readonly [number, number], terms: readonly RadialTerm[], radius: number): ChanceWithError {
  const distribution = radialDistribution(mean, terms);
  return { chance: distribution.cumulative(radius), error: distribution.error };
}

function seriesChance(mean: readonly [number, number], terms: readonly RadialTerm[], radius: number): ChanceWithError | undefined {
  if (!(radius > 0) || !mean.every(Number.isFinite) || !terms.every(({ coefficient }) => coefficient.every(Number.isFinite)))
    return undefined;
  const covariance = firstOrderCovariance(terms);
  const [xx, xy, yy] = covariance;
  if (!(xx * yy - xy * xy > 1e-9 * xx * yy)) return undefined;
  const brief = sorted(terms, covariance, smallShare);
  const parts = brief.error > mostError ? sorted(terms, covariance, 0) : brief;
  if (parts.shaped === 0) return { chance: normalDiscChance(mean, covariance, radius), error: parts.error + discError };
  return lattice(mean, parts, radius);
}

type Covariance = readonly [xx: number, xy: number, yy: number];

/** The terms by what they need: a normal with correlation, sums along either axis, and shaped sources that act on both. */
interface Parts {
  readonly normal: Covariance;
  readonly alongX: Ingredients;
  readonly alongY: Ingredients;
  readonly mixed: readonly { readonly sum: Ingredients; readonly x: number; readonly y: number }[];
  /** Number of sources that are not normal. */
  readonly shaped: number;
  /** What taking small shares as normal may change. */
  readonly error: number;
  /** How far the cloud reaches along X and Y. */
  readonly reach: readonly [number, number];
}

function firstOrderCovariance(terms: readonly RadialTerm[]): Covariance {
  let xx = 0;
  let xy = 0;
  let yy = 0;
  for (const {
    coefficient: [a, b],
    distribution,
  } of terms) {
    const variance = standardUncertaintyOf(distribution) ** 2;
    xx += a * a * variance;
    xy += a * b * variance;
    yy += b * b * variance;
  }
  return [xx, xy, yy];
}

function sorted(terms: readonly RadialTerm[], [xx, xy, yy]: Covariance, small: number): Parts {
  const determinant = xx * yy - xy * xy;
  let [nxx, nxy, nyy] = [0, 0, 0];
  const alongX = noIngredients();
  const alongY = noIngredients();
  const mixed: { sum: Ingredients; x: number; y: number }[] = [];
  const reachOfTails: [number, number] = [0, 0];
  let shaped = 0;
  let error = 0;
  for (const {
    coefficient: [a, b],
    distribution,
  } of terms) {
    const variance = standardUncertaintyOf(distribution) ** 2;
    const share = ((a * a * yy - 2 * a * b * xy + b * b * xx) / determinant) * variance;
    if (share === 0) continue;
    const normal = isNormal(distribution);
    if (normal || (share < small && mayBeNormal(distribution))) {
      if (!normal) error += shapeEffect * share * share;
      const own = variance * widening(distribution);
      nxx += a * a * own;
      nxy += a * b * own;
      nyy += b * b * own;
      continue;
    }
    shaped++;
    if (distribution.shape === "scaledT") {
      const tail = distribution.scale * tailOf(distribution.degreesOfFreedom);
      reachOfTails[0] = Math.max(reachOfTails[0], Math.abs(a) * tail);
      reachOfTails[1] = Math.max(reachOfTails[1], Math.abs(b) * tail);
    }
    if (b * b * variance < asideShare * yy) {
      addSource(alongX, distribution, Math.abs(a));
      nyy += b * b * variance;
    } else if (a * a * variance < asideShare * xx) {
      addSource(alongY, distribution, Math.abs(b));
      nxx += a * a * variance;
    } else {
      const sum = noIngredients();
      addSource(sum, distribution, 1);
      mixed.push({ sum, x: a, y: b });
    }
  }
  const reach = (variance: number, tail: number) => Math.max(reachDeviations * Math.sqrt(variance), tail);
  return { normal: [nxx, nxy, nyy], alongX, alongY, mixed, shaped, error, reach: [reach(xx, reachOfTails[0]), reach(yy, reachOfTails[1])] };
}

/** A memory of pure values: it changes no result, only the time. */
const tails = new Map<number, number>();
const mostTails = 200;

/** The value that a standard t exceeds with the chance of a cut tail. */
function tailOf(degreesOfFreedom: number): number {
  const known = tails.get(degreesOfFreedom);
  if (known !== undefined) return known;
  const tail = studentQuantile(1 - cutTail, degreesOfFreedom);
  if (tails.size >= mostTails) tails.clear();
  tails.set(degreesOfFreedom, tail);
  return tail;
}

function isNormal(distribution: SourceDistribution): boolean {
  return (
    distribution.shape === "normal" || (distribution.shape === "scaledT" && distribution.degreesOfFreedom === Number.POSITIVE_INFINITY)
  );
}

/** Variance of a source over the square of its standard uncertainty: ν/(ν - 2) for a t distribution. */
function widening(distribution: SourceDistribution): number {
  if (distribution.shape !== "scaledT" || distribution.degreesOfFreedom === Number.POSITIVE_INFINITY) return 1;
  return distribution.degreesOfFreedom / (distribution.degreesOfFreedom - 2);
}

function mayBeNormal(distribution: SourceDistribution): boolean {
  return distribution.shape !== "scaledT" || distribution.degreesOfFreedom >= nearlyNormal;
}

function lattice(
  [mx, my]: readonly [number, number],
  { normal: [nxx, nxy, nyy], alongX, alongY, mixed, reach, error }: Parts,
  radius: number,
): ChanceWithError | undefined {
  // Half the box: the images of the cloud in the neighbouring boxes must not reach the disc.
  const stepS = Math.PI / Math.max((radius + Math.abs(mx) + reach[0]) / 2, radius);
  const stepT = Math.PI / Math.max((radius + Math.abs(my) + reach[1]) / 2, radius);
  const free = nxx * nyy - nxy * nxy;
  if (!(free > 0)) return undefined;
  // The ellipse ½(nxx s² + 2 nxy st + nyy t²) = silence, bounded by its box.
  const countS = Math.ceil(Math.sqrt((2 * silence * nyy) / free) / stepS);
  const countT = Math.ceil(Math.sqrt((2 * silence * nxx) / free) / stepT);
  if (!(2 * countS * countT <= mostSamples)) return undefined;

  const column = axisFactors(alongY, nyy, my, stepT, countT);
  const row = axisFactors(alongX, nxx, mx, stepS, countS);
  let total = 0;
  for (let j = 0; j <= countS; j++) {
    const s = j * stepS;
    for (let k = 0; k <= countT; k++) {
      const t = k * stepT;
      const size = (row.size[j] as number) * (column.size[k] as number);
      if (Math.abs(size) < negligible) continue;
      const distance = Math.sqrt(s * s + t * t);
      const disc = distance === 0 ? Math.PI * radius * radius : (2 * Math.PI * radius * besselJ1(radius * distance)) / distance;
      const inPhase = (row.cosine[j] as number) * (column.cosine[k] as number);
      const quadrature = (row.sine[j] as number) * (column.sine[k] as number);
      // (s, t) with its mirror image (-s, -t), and (s, -t) with its own; on the axes two of the four are one.
      const both = size * disc * (j === 0 ? 1 : 2);
      total += both * jointFactor(mixed, nxy, s, t) * (inPhase - quadrature);
      if (k > 0) total += both * jointFactor(mixed, nxy, s, -t) * (inPhase + quadrature);
    }
  }
  const chance = (total * stepS * stepT) / (4 * Math.PI * Math.PI);
  return { chance: Math.min(1, Math.max(0, chance)), error: error + latticeError };
}

/** Samples below this cannot be seen in the sum. */
const negligible = 1e-13;

/** What an axis alone contributes at every sample along it. */
function axisFactors(sum: Ingredients, variance: number, mean: number, step: number, count: number) {
  const size = new Float64Array(count + 1);
  const cosine = new Float64Array(count + 1);
  const sine = new Float64Array(count + 1);
  const whole = { ...sum, normalVariance: sum.normalVariance + variance };
  for (let j = 0; j <= count; j++) {
    const s = j * step;
    size[j] = j === 0 ? 1 : characteristicAt(whole, s);
    cosine[j] = Math.cos(s * mean);
    sine[j] = Math.sin(s * mean);
  }
  return { size, cosine, sine };
}

/** What does not part into a factor of each axis: the correlation of the normal sources, and shaped sources that act on both. */
function jointFactor(mixed: Parts["mixed"], covariance: number, s: number, t: number): number {
  let factor = covariance === 0 || s === 0 || t === 0 ? 1 : Math.exp(-covariance * s * t);
  for (const { sum, x, y } of mixed) {
    const along = Math.abs(x * s + y * t);
    if (along > 0) factor *= characteristicAt(sum, along);
  }
  return factor;
}

/** Images and silence together: bounded by comparison with radialDistribution over random sums (tests). */
const latticeError = 2e-7;
/** Of normalDiscChance. */
const discError = 1e-10;
