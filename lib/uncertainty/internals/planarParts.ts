import { type SourceDistribution, standardUncertaintyOf } from "../sourceDistribution.ts";
import { besselJ0 } from "../special/besselJ.ts";
import { addBends, type Bends, noBends } from "./bends.ts";
import type { Covariance2, Vector2 } from "./chords.ts";
import { cumulantsOf } from "./cumulants.ts";
import { addSource, type Ingredients, noIngredients } from "./ingredients.ts";
import { lightReach } from "./inversionGrid.ts";
import { eighthOrder, isNormal, omittedEffect, tailOf, wideningOf } from "./nearNormal.ts";
import { type PlanarTerm, planarIngredients, projected } from "./planarIngredients.ts";

/**
 * The sources of a point in the plane by what their joint characteristic function needs: a normal with correlation, sums along either axis,
 * small sources by their cumulants, and shaped ones that act on both axes. All in coordinates along and square to the line on which most
 * shaped sources act; a disc about the origin is the same from every side.
 */
export interface PlanarParts {
  readonly mean: Vector2;
  readonly normal: Covariance2;
  readonly alongX: Ingredients;
  readonly alongY: Ingredients;
  readonly bends: Bends;
  readonly mixed: readonly MixedSource[];
  /** Number of sources that are not normal. */
  readonly shaped: number;
  /** What the cumulants leave out may change in a chance. */
  readonly error: number;
  /** How far the cloud reaches along X and Y. */
  readonly reach: Vector2;
}

/** Equal sources of one shape that act on both axes; their scale is in the vector. */
interface MixedSource {
  readonly x: number;
  readonly y: number;
  readonly times: number;
  readonly characteristic: (s: number) => number;
  /** The angle of the characteristic function at s > 0, odd; undefined for a symmetric source. */
  readonly angle?: ((s: number) => number) | undefined;
}

/** How many standard deviations the cloud is taken to reach. */
const reachDeviations = 6;
/** Chance of a heavy tail beyond the box. */
const cutTail = 1e-7;
/** What taking one small source by its first cumulants may change, and all of them together. */
const mostOmitted = 2e-6;
const mostOmittedTogether = 5e-6;
/** Sine of the angle up to which two lines count as one, or as square to each other, and share up to which two vectors count as equal. */
const aligned = 1e-9;

/** Nothing where the normal sources, or all of them, leave a direction without doubt. */
export function planarParts(mean: Vector2, terms: readonly PlanarTerm[]): PlanarParts | undefined {
  const axis = commonAxis(terms);
  const seen = terms.map(({ coefficient, distribution }): PlanarTerm => ({ coefficient: turned(coefficient, axis), distribution }));
  const normal = covarianceOf(seen, isNormal);
  const whole = covarianceOf(seen, () => true, wideningOf);
  if (!(isRegular(normal) && isRegular(whole))) return undefined;
  const centre = turned(mean, axis);
  const brief = sorted(centre, seen, normal, whole, mostOmitted);
  return brief.error > mostOmittedTogether ? sorted(centre, seen, normal, whole, 0) : brief;
}

/** Shaped sources that act on both axes, at (s, t). */
export function mixedFactor(mixed: readonly MixedSource[], s: number, t: number): number {
  let factor = 1;
  for (const { x, y, times, characteristic } of mixed) {
    const value = characteristic(Math.abs(x * s + y * t));
    factor *= times === 1 ? value : times === 2 ? value * value : value ** times;
  }
  return factor;
}

/** The angle that shaped sources which act on both axes add at (s, t); 0 where all are symmetric. */
export function mixedAngle(mixed: readonly MixedSource[], s: number, t: number): number {
  let angle = 0;
  for (const source of mixed) {
    const x = source.x * s + source.y * t;
    if (source.angle) angle += source.times * Math.sign(x) * source.angle(Math.abs(x));
  }
  return angle;
}

/** The unit vector along which, or square to which, the shaped sources with the largest variance together act. */
function commonAxis(terms: readonly PlanarTerm[]): Vector2 {
  const along = new Float64Array(terms.length);
  const across = new Float64Array(terms.length);
  const variances = new Float64Array(terms.length);
  let lines = 0;
  for (const { coefficient, distribution } of terms) {
    const a = coefficient[0];
    const b = coefficient[1];
    const square = a * a + b * b;
    if (!(square > 0) || isNormal(distribution)) continue;
    const size = Math.sqrt(square);
    along[lines] = a / size;
    across[lines] = b / size;
    variances[lines] = square * standardUncertaintyOf(distribution) ** 2;
    lines++;
  }
  let best = -1;
  let most = 0;
  for (let i = 0; i < lines; i++) {
    const x = along[i] as number;
    const y = across[i] as number;
    let weight = 0;
    for (let k = 0; k < lines; k++) {
      const a = along[k] as number;
      const b = across[k] as number;
      if (Math.abs((x * b - y * a) * (x * a + y * b)) <= aligned) weight += variances[k] as number;
    }
    if (weight > most) {
      most = weight;
      best = i;
    }
  }
  return best < 0 ? [1, 0] : [along[best] as number, across[best] as number];
}

/** The vector in coordinates along and square to the axis; parts that are rounding are nothing. */
function turned([x, y]: Vector2, [along, across]: Vector2): Vector2 {
  const first = x * along + y * across;
  const second = y * along - x * across;
  if (Math.abs(first) <= aligned * Math.abs(second)) return [0, second];
  return Math.abs(second) <= aligned * Math.abs(first) ? [first, 0] : [first, second];
}

function covarianceOf(
  terms: readonly PlanarTerm[],
  counts: (distribution: SourceDistribution) => boolean,
  widening: (distribution: SourceDistribution) => number = () => 1,
): Covariance2 {
  let xx = 0;
  let xy = 0;
  let yy = 0;
  for (const { coefficient, distribution } of terms) {
    if (!counts(distribution)) continue;
    const [a, b] = coefficient;
    const variance = standardUncertaintyOf(distribution) ** 2 * widening(distribution);
    xx += a * a * variance;
    xy += a * b * variance;
    yy += b * b * variance;
  }
  return [xx, xy, yy];
}

function isRegular([xx, xy, yy]: Covariance2): boolean {
  return xx * yy - xy * xy > 1e-9 * xx * yy && xx * yy < Number.POSITIVE_INFINITY;
}

function sorted(
  mean: Vector2,
  terms: readonly PlanarTerm[],
  normal: Covariance2,
  [varianceX, , varianceY]: Covariance2,
  omitted: number,
): PlanarParts {
  let [nxx, nxy, nyy] = normal;
  const determinant = nxx * nyy - nxy * nxy;
  const alongX = noIngredients();
  const alongY = noIngredients();
  const bends = noBends();
  const mixed: MixedSource[] = [];
  const sigmas = [Math.sqrt(varianceX), Math.sqrt(varianceY)] as const;
  const reach: [number, number] = [reachDeviations * sigmas[0], reachDeviations * sigmas[1]];
  let shaped = 0;
  let error = 0;
  for (const { coefficient, distribution } of terms) {
    const [a, b] = coefficient;
    if ((a === 0 && b === 0) || isNormal(distribution)) continue;
    shaped++;
    const cumulants = cumulantsOf(distribution);
    const whole = cumulants ? omittedEffect(cumulants, (a * a * normal[2] - 2 * a * b * normal[1] + b * b * normal[0]) / determinant) : 1;
    if (cumulants && whole <= omitted) {
      nxx += a * a * cumulants.second;
      nxy += a * b * cumulants.second;
      nyy += b * b * cumulants.second;
      addBends(bends, a, b, cumulants);
      error += whole;
      continue;
    }
    if (distribution.shape === "scaledT") {
      const tail = distribution.scale * tailOf(distribution.degreesOfFreedom, cutTail);
      reach[0] = Math.max(reach[0], Math.abs(a) * tail + 3 * sigmas[0]);
      reach[1] = Math.max(reach[1], Math.abs(b) * tail + 3 * sigmas[1]);
      error += cutTail;
    }
    if (b === 0) addSource(alongX, distribution, a);
    else if (a === 0) addSource(alongY, distribution, b);
    else {
      // Beside the normal along each axis that is left where the other is held.
      const sizes = [Math.abs(a) * Math.sqrt(normal[2] / determinant), Math.abs(b) * Math.sqrt(normal[0] / determinant)] as const;
      const onX = sizes[0] > sizes[1];
      // Nearly along one axis: there as it is, and what it does beside by its cumulants.
      const beside = cumulants ? asideEffect(eighthOrder(cumulants), Math.max(...sizes), Math.min(...sizes)) : 1;
      if (cumulants && beside <= omitted) {
        nxy += a * b * cumulants.second;
        if (onX) nyy += b * b * cumulants.second;
        else nxx += a * a * cumulants.second;
        addSource(onX ? alongX : alongY, distribution, onX ? a : b);
        addBends(bends, a, b, cumulants, onX ? "s" : "t");
        error += beside;
      } else addMixed(mixed, a, b, distribution);
    }
  }
  if (terms.some(({ distribution }) => distribution.shape === "exponential")) {
    const through = planarIngredients(terms);
    // Skewed sources reach farther to one side than a normal one with their variance.
    reach[0] = Math.max(reach[0], lightReach(projected(through, [1, 0]), cutTail));
    reach[1] = Math.max(reach[1], lightReach(projected(through, [0, 1]), cutTail));
  }
  return { mean, normal: [nxx, nxy, nyy], alongX, alongY, bends, mixed, shaped, error, reach };
}

/** What leaving out the terms of the eighth order and above may change that are not powers of `along` alone. */
function asideEffect(eighth: number, along: number, aside: number): number {
  return eighth * ((along + aside) ** 8 - along ** 8);
}

function addMixed(to: MixedSource[], a: number, b: number, distribution: SourceDistribution): void {
  const single = noIngredients();
  addSource(single, distribution, 1);
  for (const half of single.boxes) addEqual(to, a * half, b * half, sine);
  for (const half of single.arcsines) addEqual(to, a * half, b * half, besselJ0);
  for (const { scale, characteristic } of single.students) addEqual(to, a * scale, b * scale, characteristic);
  for (const { scale, shape } of single.shaped) addEqual(to, a * scale, b * scale, shape.modulus, shape.angle);
}

/** Touches of one face at two places, for one, move a point by opposite vectors. */
function addEqual(to: MixedSource[], x: number, y: number, characteristic: (s: number) => number, angle?: (s: number) => number): void {
  const size = aligned * (Math.abs(x) + Math.abs(y));
  const equal = to.findIndex(
    (other) =>
      other.characteristic === characteristic &&
      Math.min(
        Math.abs(other.x - x) + Math.abs(other.y - y),
        // Skewed sources are not the same from both sides.
        angle ? Number.POSITIVE_INFINITY : Math.abs(other.x + x) + Math.abs(other.y + y),
      ) <= size,
  );
  const known = to[equal];
  if (known === undefined) to.push({ x, y, times: 1, characteristic, angle });
  else to[equal] = { ...known, times: known.times + 1 };
}

function sine(x: number): number {
  return x > 0 ? Math.sin(x) / x : 1;
}
