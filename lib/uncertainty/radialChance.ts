import type { ChanceWithError } from "./distribution.ts";
import { checkSource } from "./internals/checkSource.ts";
import { discTransform } from "./internals/discTransform.ts";
import { angleAt, characteristicAt, type Ingredients, isSkewed } from "./internals/ingredients.ts";
import { mixedAngle, mixedFactor, type PlanarParts, planarParts } from "./internals/planarParts.ts";
import { normalDiscChance } from "./normalDiscChance.ts";
import { quickRadialDistribution, type RadialTerm, radialDistribution } from "./radialDistribution.ts";
import { standardUncertaintyOf } from "./sourceDistribution.ts";

/** Exponent at which the normal part has silenced the characteristic function: e^-17 is 4e-8. */
const silence = 17;
/** More samples than this, and the whole distribution is the better way. */
const mostSamples = 8000;
/** Samples below this cannot be seen in the sum, and what its exponent alone says of that. */
const negligible = 1e-10;
const silent = Math.log(negligible / 2);
/** Images and silence together: bounded by comparison with radialDistribution over random sums (tests). */
const latticeError = 2e-7;
/** Of normalDiscChance. */
const discError = 1e-10;

/**
 * The chance that the point (x, y) = mean + Σ coefficientᵢ Xᵢ lies within a
 * radius of the origin: one number of `radialDistribution`, at a small part of its
 * cost, for tables of many characteristics.
 *
 * The density is a Fourier series on a box that holds disc and cloud; its
 * coefficients are samples of the joint characteristic function, those of the
 * disc are 2πR·J1(Rρ)/ρ (see discTransform), and the chance
 * is the sum of their products. Sources that act along one axis only, most of
 * them, enter through a row or a column; small ones by their cumulants together,
 * in one polynomial. Where the normal part is too small to silence the series
 * soon, or tails are too heavy for a box, the whole distribution answers.
 *
 * @throws RangeError as radialDistribution, and for a radius that is not a number of 0 or more
 */
export function radialChance(mean: readonly [x: number, y: number], terms: readonly RadialTerm[], radius: number): ChanceWithError {
  if (!(radius >= 0)) throw new RangeError(`radius: expected >= 0, got ${radius}`);
  return seriesChance(mean, terms, radius) ?? wholeChance(mean, terms, radius);
}

/** The same where it is quick, which is decided beforehand by the sources alone (see quickRadialDistribution); undefined elsewhere. */
export function quickRadialChance(
  mean: readonly [x: number, y: number],
  terms: readonly RadialTerm[],
  radius: number,
): ChanceWithError | undefined {
  if (!(radius >= 0)) throw new RangeError(`radius: expected >= 0, got ${radius}`);
  const found = seriesChance(mean, terms, radius);
  if (found !== undefined) return found;
  const distribution = quickRadialDistribution(mean, terms);
  return distribution && { chance: distribution.cumulative(radius), error: distribution.error };
}

function wholeChance(mean: readonly [number, number], terms: readonly RadialTerm[], radius: number): ChanceWithError {
  const distribution = radialDistribution(mean, terms);
  return { chance: distribution.cumulative(radius), error: distribution.error };
}

function seriesChance(mean: readonly [number, number], terms: readonly RadialTerm[], radius: number): ChanceWithError | undefined {
  if (!mean.every(Number.isFinite)) return undefined;
  let scale = 0;
  for (const { coefficient, distribution } of terms) {
    if (!coefficient.every(Number.isFinite)) return undefined;
    checkSource(distribution);
    scale = Math.max(scale, Math.hypot(...coefficient) * standardUncertaintyOf(distribution));
  }
  if (!(radius > 0 && radius < Number.POSITIVE_INFINITY && scale > 0 && scale < Number.POSITIVE_INFINITY)) return undefined;
  // In units of the largest standard uncertainty, so that powers neither overflow nor vanish.
  const scaled = terms.map(({ coefficient: [x, y], distribution }): RadialTerm => ({ coefficient: [x / scale, y / scale], distribution }));
  const parts = planarParts([mean[0] / scale, mean[1] / scale], scaled);
  if (parts === undefined) return undefined;
  if (parts.shaped === 0) return { chance: normalDiscChance(parts.mean, parts.normal, radius / scale), error: discError };
  return lattice(parts, radius / scale);
}

function lattice(
  { mean: [mx, my], normal: [nxx, nxy, nyy], alongX, alongY, bends, mixed, reach, error }: PlanarParts,
  radius: number,
): ChanceWithError | undefined {
  // Half the box: the images of the cloud in the neighbouring boxes must not reach the disc.
  const stepS = Math.PI / Math.max((radius + Math.abs(mx) + reach[0]) / 2, radius);
  const stepT = Math.PI / Math.max((radius + Math.abs(my) + reach[1]) / 2, radius);
  const free = nxx * nyy - nxy * nxy;
  // The ellipse ½(nxx s² + 2 nxy st + nyy t²) = silence, bounded by its box.
  const countS = Math.ceil(Math.sqrt((2 * silence * nyy) / free) / stepS);
  const countT = Math.ceil(Math.sqrt((2 * silence * nxx) / free) / stepT);
  if (!(2 * countS * countT <= mostSamples)) return undefined;

  const row = axisFactors(alongX, nxx, bends.fourth[0] as number, bends.sixth[0] as number, mx, stepS, countS);
  const column = axisFactors(alongY, nyy, bends.fourth[4] as number, bends.sixth[6] as number, my, stepT, countT);
  const [, f1, f2, f3] = bends.fourth as ArrayLike<number> as readonly [number, number, number, number];
  const [, g1, g2, g3, g4, g5] = bends.sixth as ArrayLike<number> as readonly [number, number, number, number, number, number];
  const mixedSkewed = mixed.some(({ angle }) => angle !== undefined);
  const { size: columnSize, exponent: columnExponent, cosine: columnCosine, sine: columnSine } = column;
  let total = 0;
  for (let j = 0; j <= countS; j++) {
    const s = j * stepS;
    const ss = s * s;
    // (s, t) with its mirror image (-s, -t), and (s, -t) with its own; on the axes two of the four are one.
    const both = (row.size[j] as number) * (j === 0 ? 1 : 2);
    const rowExponent = row.exponent[j] as number;
    const rowCosine = row.cosine[j] as number;
    const rowSine = row.sine[j] as number;
    for (let k = 0; k <= countT; k++) {
      const t = k * stepT;
      const tt = t * t;
      // The cross terms of the exponent: those that stay when t changes its sign, and those that change theirs.
      const even = ss * tt * (f2 + g2 * ss + g4 * tt);
      const odd = s * t * (f1 * ss + f3 * tt + g1 * ss * ss + g3 * ss * tt + g5 * tt * tt - nxy);
      // Summed before it is raised: with strong correlation each part alone would overflow or vanish.
      const exponent = rowExponent + (columnExponent[k] as number) + even + Math.abs(odd);
      if (exponent < silent) continue;
      const size = both * (columnSize[k] as number) * Math.exp(exponent);
      if (Math.abs(size) < negligible) continue;
      const disc = discTransform(radius * Math.sqrt(ss + tt));
      const inPhase = rowCosine * (columnCosine[k] as number);
      const quadrature = rowSine * (columnSine[k] as number);
      let cosineAlong = inPhase - quadrature;
      let cosineAcross = inPhase + quadrature;
      if (mixedSkewed) {
        const halfSine = rowSine * (columnCosine[k] as number);
        const otherHalf = rowCosine * (columnSine[k] as number);
        cosineAlong = turnedCosine(cosineAlong, halfSine + otherHalf, mixedAngle(mixed, s, t));
        cosineAcross = turnedCosine(cosineAcross, halfSine - otherHalf, mixedAngle(mixed, s, -t));
      }
      const lesser = exponentialBelow(2 * Math.abs(odd));
      let along = odd >= 0 ? 1 : lesser;
      let across = k === 0 ? 0 : odd >= 0 ? lesser : 1;
      if (mixed.length > 0) {
        along *= mixedFactor(mixed, s, t);
        across = j === 0 || k === 0 ? along * Math.sign(across) : across * mixedFactor(mixed, s, -t);
      }
      total += size * disc * (along * cosineAlong + across * cosineAcross);
    }
  }
  const chance = (total * radius * radius * stepS * stepT) / (4 * Math.PI);
  return { chance: Math.min(1, Math.max(0, chance)), error: error + latticeError };
}

/** e^-x for x >= 0, to the last digit or two: by its series where that is short. */
function exponentialBelow(x: number): number {
  if (x > 0.01) return Math.exp(-x);
  return 1 - x * (1 - (x / 2) * (1 - (x / 3) * (1 - (x / 4) * (1 - (x / 5) * (1 - x / 6)))));
}

/** The cosine of an angle with the given cosine and sine, after a further turn. */
function turnedCosine(cosine: number, sine: number, turn: number): number {
  return cosine * Math.cos(turn) - sine * Math.sin(turn);
}

/** What an axis alone contributes at every sample along it. */
function axisFactors(sum: Ingredients, variance: number, fourth: number, sixth: number, mean: number, step: number, count: number) {
  const samples = count + 1;
  const all = new Float64Array(4 * samples);
  const size = all.subarray(0, samples);
  const exponent = all.subarray(samples, 2 * samples);
  const cosine = all.subarray(2 * samples, 3 * samples);
  const sine = all.subarray(3 * samples);
  const skewed = isSkewed(sum);
  for (let j = 0; j <= count; j++) {
    const s = j * step;
    const square = s * s;
    size[j] = j === 0 ? 1 : characteristicAt(sum, s);
    exponent[j] = square * (-variance / 2 + square * (fourth + square * sixth));
    const angle = skewed && j > 0 ? s * mean + angleAt(sum, s) : s * mean;
    cosine[j] = Math.cos(angle);
    sine[j] = Math.sin(angle);
  }
  return { size, exponent, cosine, sine };
}
