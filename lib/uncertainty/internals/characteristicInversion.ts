import { gradedNodes } from "./gradedNodes.ts";
import { angleAt, characteristicAt, type Ingredients, isSkewed } from "./ingredients.ts";
import { type InversionGrid, smallestPhase } from "./inversionGrid.ts";

/**
 * Tail and density of a sum of independent terms from its characteristic function φ(s) = m(s) e^(iθ(s)):
 * P(Z > z) = ½ - (1/π) ∫ m(s) sin(sz - θ(s))/s ds, with θ = 0 where all terms are symmetric (J. Gil-Pelaez, Note on the inversion theorem, Biometrika 38 (1951) 481-482), by the
 * trapezoid rule at half-integer nodes (H. Bohman, Nordisk Mat. Tidskr. 1961; R. B. Davies, Biometrika 60 (1973) 415-417).
 */
export function characteristicInversion(sum: Ingredients, grid: InversionGrid): CharacteristicInversion {
  const near = grid.kind === "uniform" ? uniformSum(sum, grid) : gradedSum(sum, grid);
  const { farTail, range } = grid;
  if (!farTail) return { evaluate: (z) => (Math.abs(z) < range ? near(z) : [z < 0 ? 1 : 0, 0]), miss: 0 };
  // The far law is scaled to meet the sum where it takes over, so that the chance stays continuous.
  const far = farTail.evaluate(range)[0];
  const scaleTo = (tail: number) => Math.min(2, Math.max(0.5, tail / far));
  const tailAbove = near(range)[0];
  const tailBelow = isSkewed(sum) ? 1 - near(-range)[0] : tailAbove;
  const above = scaleTo(tailAbove);
  const below = scaleTo(tailBelow);
  return {
    evaluate(z) {
      if (Math.abs(z) < range) return near(z);
      const [tail, density] = farTail.evaluate(Math.abs(z));
      return z < 0 ? [1 - below * tail, below * density] : [above * tail, above * density];
    },
    miss: Math.max(Math.abs(tailAbove - far), Math.abs(tailBelow - far)),
  };
}

export interface CharacteristicInversion {
  evaluate(z: number): readonly [tail: number, density: number];
  /** By how much the far law of the t terms, unscaled, is wrong where it takes over. */
  readonly miss: number;
}

function uniformSum(sum: Ingredients, { count, step }: InversionGrid): (z: number) => readonly [number, number] {
  const weights = new Float64Array(count);
  const across = isSkewed(sum) ? new Float64Array(count) : undefined;
  for (let k = 0; k < count; k += 1) {
    const s = (k + 0.5) * step;
    const weight = characteristicAt(sum, s) / (Math.PI * (k + 0.5));
    weights[k] = across ? weight * Math.cos(angleAt(sum, s)) : weight;
    if (across) across[k] = weight * Math.sin(angleAt(sum, s));
  }
  return (z) => {
    const turn = step * z;
    const turnCosine = Math.cos(turn);
    const turnSine = Math.sin(turn);
    let chance = 0.5;
    let density = 0;
    let cosine = 0;
    let sine = 0;
    for (let k = 0; k < count; k += 1) {
      if (k % rotations === 0) {
        // Afresh from time to time, since the rotations gather rounding.
        cosine = Math.cos((k + 0.5) * turn);
        sine = Math.sin((k + 0.5) * turn);
      }
      const weight = weights[k] as number;
      chance -= weight * sine;
      density += weight * (k + 0.5) * cosine;
      if (across) {
        const other = across[k] as number;
        chance += other * cosine;
        density += other * (k + 0.5) * sine;
      }
      const turned = cosine * turnCosine - sine * turnSine;
      sine = sine * turnCosine + cosine * turnSine;
      cosine = turned;
    }
    return [chance, density * step];
  };
}

const rotations = 128;

function gradedSum(sum: Ingredients, grid: InversionGrid): (z: number) => readonly [number, number] {
  const { nodes, weights } = gradedNodes(grid.range, grid.count, smallestPhase);
  const products = weights.map((weight, k) => (weight * characteristicAt(sum, nodes[k] as number)) / Math.PI);
  const angles = nodes.map((s) => angleAt(sum, s));
  return (z) => {
    let chance = 0.5;
    let density = 0;
    for (let k = 0; k < products.length; k += 1) {
      const s = nodes[k] as number;
      const product = products[k] as number;
      const phase = s * z - (angles[k] as number);
      chance -= (product * Math.sin(phase)) / s;
      density += product * Math.cos(phase);
    }
    return [chance, density];
  };
}
