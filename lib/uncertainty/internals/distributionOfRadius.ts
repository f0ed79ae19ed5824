import type { Distribution } from "../distribution.ts";
import { gaussLegendre } from "../special/gaussLegendre.ts";
import type { Vector2 } from "./chords.ts";
import { completeDistribution } from "./completeDistribution.ts";
import { type PlanarIngredients, planarCovariance } from "./planarIngredients.ts";
import { heavyVariance } from "./radialGrids.ts";
import type { RadialLaw } from "./radialLaw.ts";

/** The full distribution from the chance within a radius; all but `scale` in units of `scale`. */
export function distributionOfRadius(law: RadialLaw, mean: Vector2, sum: PlanarIngredients, scale: number): Distribution {
  const within = (radius: number) => (radius > 0 ? Math.min(1, Math.max(0, law.evaluate(radius)[0])) : 0);
  const fewest = Math.min(...sum.students.map(({ degreesOfFreedom }) => degreesOfFreedom));
  const [xx, , yy] = planarCovariance(sum, fewest > 2 ? Number.POSITIVE_INFINITY : heavyVariance);
  const meanSquare = mean[0] * mean[0] + mean[1] * mean[1] + xx + yy;
  const typical = Math.sqrt(meanSquare);
  const spread = Math.sqrt(xx + yy);
  const moments = once(() => momentsOf(within, quantileOf(law, 0.5, typical, spread), spread, law.error));
  const core = completeDistribution(
    {
      mean: 0,
      standardDeviation: 0,
      error: law.error,
      method: law.method,
      density: (radius) => (radius > 0 ? Math.max(0, law.evaluate(radius / scale)[1]) / scale : 0),
      cumulative: (radius) => within(radius / scale),
      quantile: (p) => scale * quantileOf(law, p, typical, spread),
    },
    false,
  );
  return {
    ...core,
    get mean() {
      return fewest <= 1 ? Number.POSITIVE_INFINITY : scale * moments().mean;
    },
    get standardDeviation() {
      return fewest <= 2 ? Number.POSITIVE_INFINITY : scale * moments().standardDeviation;
    },
  };
}

/** Newton's method in ln radius on ln chance (below the middle) or ln of the rest (above), kept within a shrinking bracket. */
function quantileOf(law: RadialLaw, p: number, typical: number, spread: number): number {
  if (p === 0) return 0;
  if (p === 1) return Number.POSITIVE_INFINITY;
  let low = 0;
  let high = law.limit ?? Number.POSITIVE_INFINITY;
  let radius = Math.min(typical, high);
  for (let step = 0; step < mostSteps; step += 1) {
    const [chance, density] = law.evaluate(radius);
    if (chance < p) low = radius;
    else high = radius;
    const move = p < 0.5 ? (Math.log(p / chance) * chance) / density : (Math.log((1 - chance) / (1 - p)) * (1 - chance)) / density;
    const newton = radius + move;
    if (Math.abs(move) <= 1e-8 * Math.min(radius, spread)) return newton;
    if (newton > low && newton < high) radius = newton;
    else radius = high === Number.POSITIVE_INFINITY ? 2 * radius : (low + high) / 2;
    if (high < Number.POSITIVE_INFINITY && high - low <= 1e-14 * high) return radius;
  }
  return radius;
}

const mostSteps = 200;

/**
 * Mean and standard deviation from the chances beyond and within, about the median m: E ρ - m = ∫ (1 - F) above - ∫ F below, and
 * E (ρ - m)² = 2 ∫ |ρ - m| (1 - F, or F) dρ; panel by panel outwards until nothing is left to add.
 */
function momentsOf(within: (radius: number) => number, median: number, spread: number, error: number): { mean: number; standardDeviation: number } {
  const { nodes, weights } = gaussLegendre(12);
  let first = 0;
  let second = 0;
  for (const direction of [1, -1]) {
    const end = direction === 1 ? Number.POSITIVE_INFINITY : median;
    for (let from = 0, to = 0; from < end; from = to) {
      to = Math.min(end, from + Math.max(spread / 2, from / 3));
      let part = 0;
      for (const [k, node] of nodes.entries()) {
        const off = (from + to) / 2 + ((to - from) / 2) * node;
        const chance = within(median + direction * off);
        const rest = ((to - from) / 2) * (weights[k] as number) * (direction === 1 ? 1 - chance : chance);
        part += rest;
        second += 2 * off * rest;
      }
      first += direction * part;
      if (!(part > error * (to - from))) break;
    }
  }
  return { mean: median + first, standardDeviation: Math.sqrt(Math.max(0, second - first * first)) };
}

function once<T>(make: () => T): () => T {
  let made: { readonly value: T } | undefined;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}
