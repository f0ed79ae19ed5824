import { besselJ0, besselJ1 } from "../special/besselJ.ts";
import type { AngleAverage } from "./angleSets.ts";
import { gradedNodes } from "./gradedNodes.ts";
import type { RadialFarTail } from "./radialFarTail.ts";
import type { RadialLaw } from "./radialLaw.ts";

/**
 * Chance to lie within a radius from the angle-averaged characteristic function: F(r) = r ∫ J1(rs) φ̄(s) ds (the Fourier transform of a disc,
 * DLMF 10.22.59 and Parseval), summed in one of two ways.
 */
export interface HankelGrid {
  readonly kind: "bessel" | "graded";
  readonly count: number;
  /** Largest radius that the sum holds for. */
  readonly range: number;
  readonly error: number;
}

export interface HankelLaw extends RadialLaw {
  /** By how much the far law of the t terms, unscaled, is wrong where it takes over. */
  readonly miss: number;
}

export function hankelLaw(average: AngleAverage, grid: HankelGrid, farTail: RadialFarTail | undefined): HankelLaw {
  const near = grid.kind === "bessel" ? besselSeries(average, grid) : gradedSum(average, grid);
  const { range } = grid;
  const beyond = 1 - near(range)[0];
  const far = farTail ? farTail.evaluate(range) : 0;
  const scale = farTail ? Math.min(2, Math.max(0.5, beyond / far)) : 0;
  const miss = farTail ? Math.abs(beyond - far) : 0;
  return {
    miss,
    error: grid.error + miss,
    method: `angle-averaged characteristic function, ${grid.count} ${grid.kind === "bessel" ? "Bessel zeros" : "graded steps"}`,
    evaluate(radius) {
      if (radius < range) return near(radius);
      if (!farTail) return [1, 0];
      const step = 1e-4 * radius;
      return [
        1 - scale * farTail.evaluate(radius),
        (scale * (farTail.evaluate(radius - step) - farTail.evaluate(radius + step))) / (2 * step),
      ];
    },
  };
}

/**
 * Where all the chance lies within R: the averaged density as a Fourier-Bessel series in J0(jₖ r/R), whose coefficients are samples of φ̄ at
 * jₖ/R (DLMF 10.23.18), integrated term by term. The counterpart of the trapezoid rule at half-integer nodes, and as sparing.
 */
function besselSeries(average: AngleAverage, { count, range }: HankelGrid): (radius: number) => readonly [number, number] {
  const zeros = zerosOfJ0(count);
  const nodes = zeros.map((zero) => zero / range);
  const weights = zeros.map((zero, k) => (2 * average.at(nodes[k] as number)) / (range * besselJ1(zero)) ** 2);
  return (radius) => {
    let chance = 0;
    let density = 0;
    for (let k = 0; k < count; k += 1) {
      const s = nodes[k] as number;
      const weight = weights[k] as number;
      chance += (weight * besselJ1(s * radius)) / s;
      density += weight * besselJ0(s * radius);
    }
    return [chance * radius, density * radius];
  };
}

function gradedSum(average: AngleAverage, { count, range }: HankelGrid): (radius: number) => readonly [number, number] {
  const { nodes, weights } = gradedNodes(range, count, smallestRadialPhase);
  const products = weights.map((weight, k) => weight * average.at(nodes[k] as number));
  return (radius) => {
    let chance = 0;
    let density = 0;
    for (let k = 0; k < count; k += 1) {
      const s = nodes[k] as number;
      const product = products[k] as number;
      chance += product * besselJ1(s * radius);
      density += product * s * besselJ0(s * radius);
    }
    return [chance * radius, density * radius];
  };
}

/** First node of a graded grid, times the range: what lies below contributes its square. */
export const smallestRadialPhase = 1e-6;

/** Positive zeros of J0, kept: McMahon's expansion (DLMF 10.21.19), then Newton. */
function zerosOfJ0(count: number): number[] {
  for (let k = knownZeros.length; k < count; k += 1) {
    const beta = (k + 0.75) * Math.PI;
    let zero = beta + 1 / (8 * beta) - 31 / (384 * beta ** 3);
    for (let step = 0; step < 2; step += 1) zero += besselJ0(zero) / besselJ1(zero);
    knownZeros.push(zero);
  }
  return knownZeros.slice(0, count);
}

const knownZeros: number[] = [];
