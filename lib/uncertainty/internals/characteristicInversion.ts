import { gradedNodes } from "./gradedNodes.ts";
import { characteristicAt, type Ingredients } from "./ingredients.ts";
import { type InversionGrid, smallestPhase } from "./inversionGrid.ts";

/**
 * Tail and density, for z >= 0, of a sum of symmetric independent terms from its characteristic function φ:
 * P(Z > z) = ½ - (1/π) ∫ φ(s) sin(sz)/s ds (J. Gil-Pelaez, Note on the inversion theorem, Biometrika 38 (1951) 481-482), by the
 * trapezoid rule at half-integer nodes (H. Bohman, Nordisk Mat. Tidskr. 1961; R. B. Davies, Biometrika 60 (1973) 415-417).
 */
export function characteristicInversion(sum: Ingredients, grid: InversionGrid): (z: number) => readonly [tail: number, density: number] {
  const near = grid.kind === "uniform" ? uniformSum(sum, grid) : gradedSum(sum, grid);
  const { farTail, range } = grid;
  if (!farTail) return (z) => (z < range ? near(z) : [0, 0]);
  // The far law is scaled to meet the sum where it takes over, so that the chance stays continuous.
  const scale = Math.min(2, Math.max(0.5, near(range)[0] / farTail.evaluate(range)[0]));
  return (z) => {
    if (z < range) return near(z);
    const [tail, density] = farTail.evaluate(z);
    return [scale * tail, scale * density];
  };
}

function uniformSum(sum: Ingredients, { count, step }: InversionGrid): (z: number) => readonly [number, number] {
  const weights = new Float64Array(count);
  for (let k = 0; k < count; k += 1) weights[k] = characteristicAt(sum, (k + 0.5) * step) / (Math.PI * (k + 0.5));
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
  return (z) => {
    let chance = 0.5;
    let density = 0;
    for (let k = 0; k < products.length; k += 1) {
      const s = nodes[k] as number;
      const product = products[k] as number;
      chance -= (product * Math.sin(s * z)) / s;
      density += product * Math.cos(s * z);
    }
    return [chance, density];
  };
}
