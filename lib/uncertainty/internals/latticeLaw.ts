import { type ChordFrame, chordsOf } from "./chords.ts";
import { isSkewed } from "./ingredients.ts";
import { type PlanarIngredients, planarAngleAt, planarCharacteristicAt } from "./planarIngredients.ts";
import type { RadialLaw } from "./radialLaw.ts";

/** Where the joint characteristic function is sampled. */
export interface LatticeGrid {
  readonly frame: ChordFrame;
  /** Beyond these hardly any chance is left, along the chords and across. */
  readonly reachA: number;
  readonly reachB: number;
  /** Samples at half-integer multiples of π / reachA. */
  readonly countA: number;
  /** Samples at whole multiples of π / reachB, to either side of 0. */
  readonly countB: number;
  readonly error: number;
}

/**
 * Chance to lie within a radius by inverting the joint characteristic function in the skew coordinates of the cloud: for each chord of the
 * disc the chance of its length, jointly with the density of its place across, then a quadrature over the chords. The cost
 * does not grow with the ratio of length to width of the cloud, nor with its distance from the origin.
 */
export function latticeLaw(sum: PlanarIngredients, grid: LatticeGrid): RadialLaw {
  const { frame, reachA, reachB, countA, countB } = grid;
  const stepA = Math.PI / reachA;
  const stepB = Math.PI / reachB;
  const { even, odd } = samples(sum, grid, 0);
  const imaginaryParts = isSkewed(sum) ? samples(sum, grid, Math.PI / 2) : undefined;
  const real = new Float64Array(countA);
  const imaginary = new Float64Array(countA);
  /** The sum over k at one place b, for every j: Σₖ φ*(sⱼ, tₖ) e^(i tₖ b) / (j + ½), with φ* = φ unless some sources are skewed. */
  const moveTo = (b: number) => {
    real.fill(0);
    imaginary.fill(0);
    for (let k = 0; k <= countB; k += 1) {
      const cosine = Math.cos(k * stepB * b);
      const sine = Math.sin(k * stepB * b);
      for (let j = 0, at = k * countA; j < countA; j += 1, at += 1) {
        real[j] = (real[j] as number) + (even[at] as number) * cosine;
        imaginary[j] = (imaginary[j] as number) + (odd[at] as number) * sine;
      }
      if (imaginaryParts) addImaginary(imaginaryParts, k * countA, cosine, sine);
    }
  };
  /** What the imaginary parts of φ* add to one row. */
  const addImaginary = (parts: Parity, start: number, cosine: number, sine: number) => {
    for (let j = 0; j < countA; j += 1) {
      real[j] = (real[j] as number) - (parts.odd[start + j] as number) * sine;
      imaginary[j] = (imaginary[j] as number) + (parts.even[start + j] as number) * cosine;
    }
  };
  /** At the end `a` of a chord: Σⱼ Im and, times sⱼ, Re of e^(i sⱼ a) (real + i imaginary). */
  const endSums = (a: number) => {
    const turnCosine = Math.cos(stepA * a);
    const turnSine = Math.sin(stepA * a);
    let cosine = Math.cos(0.5 * stepA * a);
    let sine = Math.sin(0.5 * stepA * a);
    let chance = 0;
    let density = 0;
    for (let j = 0; j < countA; j += 1) {
      chance += sine * (real[j] as number) + cosine * (imaginary[j] as number);
      density += (j + 0.5) * (cosine * (real[j] as number) - sine * (imaginary[j] as number));
      const turned = cosine * turnCosine - sine * turnSine;
      sine = sine * turnCosine + cosine * turnSine;
      cosine = turned;
    }
    return [chance, density * stepA] as const;
  };
  return {
    limit: Math.hypot(...frame.mean) + reachA + reachB * Math.hypot(...frame.e),
    error: grid.error,
    method: `joint characteristic function, ${countA} by ${2 * countB + 1} samples`,
    evaluate(radius) {
      let chance = 0;
      let density = 0;
      for (const { b, low, high, weight, growth } of chordsOf(frame, radius, reachB)) {
        if (!(high > -reachA && low < reachA)) continue;
        moveTo(b);
        const [upper, atUpper] = endSums(Math.min(high, reachA));
        const [lower, atLower] = endSums(Math.max(low, -reachA));
        chance += weight * (upper - lower);
        density += growth * ((high < reachA ? atUpper : 0) + (low > -reachA ? atLower : 0));
      }
      const scale = 1 / (2 * Math.PI * reachB);
      return [chance * scale, density * scale];
    },
  };
}

/** The samples for k and -k as sum and difference, row by row in k. */
interface Parity {
  readonly even: Float64Array;
  readonly odd: Float64Array;
}

/** |φ| cos(angle of φ + turn) over the lattice, divided by j + ½: the real part of the conjugate of φ, and with a quarter turn its imaginary part. */
function samples(sum: PlanarIngredients, { frame: { formA, formB }, reachA, reachB, countA, countB }: LatticeGrid, turn: number): Parity {
  const skewed = isSkewed(sum);
  const even = new Float64Array(countA * (countB + 1));
  const odd = new Float64Array(countA * (countB + 1));
  for (let k = 0; k <= countB; k += 1) {
    const t = (Math.PI * k) / reachB;
    for (let j = 0; j < countA; j += 1) {
      const s = (Math.PI * (j + 0.5)) / reachA;
      const at = (direction: number) => {
        const x = s * formA[0] + direction * t * formB[0];
        const y = s * formA[1] + direction * t * formB[1];
        const modulus = planarCharacteristicAt(sum, x, y) / (j + 0.5);
        return skewed ? modulus * Math.cos(planarAngleAt(sum, x, y) + turn) : modulus;
      };
      const plus = at(1);
      const minus = k === 0 ? 0 : at(-1);
      even[k * countA + j] = plus + minus;
      odd[k * countA + j] = k === 0 ? 0 : plus - minus;
    }
  }
  return { even, odd };
}
