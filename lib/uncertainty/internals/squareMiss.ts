import { gaussLegendre } from "../special/gaussLegendre.ts";
import { normalDensity, normalUpperTail } from "../special/normalCumulative.ts";

/**
 * Chance that of two standard normal variables with the given correlation at least one lies beyond ±`k`, and k times its derivative by k;
 * absolute error below 1e-14.
 *
 * The chance within the square grows with the correlation r by 2(φ(k, k; r) - φ(k, -k; r)), with φ the joint density (R. L. Plackett,
 * Biometrika 41 (1954) 351-360); r = sin θ makes the integrand smooth as far as ±1.
 *
 * @param k above 0
 * @param correlation from -1 to 1
 */
export function squareMiss(k: number, correlation: number): readonly [chance: number, slope: number] {
  const either = 2 * normalUpperTail(k);
  const end = Math.asin(Math.abs(correlation));
  const { nodes, weights } = gaussLegendre(nodeCount);
  let gained = 0;
  for (let i = 0; i < nodes.length; i++) {
    const sine = Math.sin((end * (1 + (nodes[i] as number))) / 2);
    gained += (weights[i] as number) * (Math.exp((-k * k) / (1 + sine)) - Math.exp((-k * k) / (1 - sine)));
  }
  // On the edge of the square, the chance that the other variable is within.
  const ratio = Math.sqrt((1 - Math.abs(correlation)) / (1 + Math.abs(correlation)));
  const within = 1 - normalUpperTail(ratio * k) - normalUpperTail(k / ratio);
  return [either * (2 - either) - (gained * end) / (2 * Math.PI), -4 * k * normalDensity(k) * within];
}

const nodeCount = 64;
