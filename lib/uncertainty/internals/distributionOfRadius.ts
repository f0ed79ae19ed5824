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
  const meanRadius = once(() => (fewest <= 1 ? Number.POSITIVE_INFINITY : meanOf(within, typical, law.error)));
  const core = completeDistribution(
    {
      mean: 0,
      standardDeviation: 0,
      error: law.error,
      method: law.method,
      density: (radius) => (radius > 0 ? Math.max(0, law.evaluate(radius / scale)[1]) / scale : 0),
      cumulative: (radius) => within(radius / scale),
      quantile: (p) => scale * quantileOf(law, p, typical),
    },
    false,
  );
  return {
    ...core,
    get mean() {
      return scale * meanRadius();
    },
    get standardDeviation() {
      if (fewest <= 2) return Number.POSITIVE_INFINITY;
      return scale * Math.sqrt(Math.max(0, meanSquare - meanRadius() ** 2));
    },
  };
}

/** Newton's method in ln radius on ln chance (below the middle) or ln of the rest (above), kept within a shrinking bracket. */
function quantileOf(law: RadialLaw, p: number, typical: number): number {
  if (p === 0) return 0;
  if (p === 1) return Number.POSITIVE_INFINITY;
  let low = 0;
  let high = Number.POSITIVE_INFINITY;
  let radius = typical;
  for (let step = 0; step < mostSteps; step += 1) {
    const [chance, density] = law.evaluate(radius);
    if (chance < p) low = radius;
    else high = radius;
    const move = p < 0.5 ? (Math.log(p / chance) * chance) / density : (Math.log((1 - chance) / (1 - p)) * (1 - chance)) / density;
    const newton = radius + move;
    if (Math.abs(move) <= 1e-7 * radius) return newton;
    if (newton > low && newton < high) radius = newton;
    else radius = high === Number.POSITIVE_INFINITY ? 2 * radius : (low + high) / 2;
    if (high < Number.POSITIVE_INFINITY && high - low <= 1e-14 * high) return radius;
  }
  return radius;
}

const mostSteps = 200;

/** E ρ = ∫ (1 - F) dρ, panel by panel outwards until nothing is left to add. */
function meanOf(within: (radius: number) => number, typical: number, error: number): number {
  const { nodes, weights } = gaussLegendre(12);
  let sum = 0;
  let from = 0;
  for (let panel = 0; panel < 400; panel += 1) {
    const to = from + Math.max(typical / 8, from / 3);
    let part = 0;
    for (const [k, node] of nodes.entries()) part += ((to - from) / 2) * (weights[k] as number) * (1 - within((from + to) / 2 + ((to - from) / 2) * node));
    sum += part;
    if (!(part > 1e-9 * sum && 1 - within(to) > error)) break;
    from = to;
  }
  return sum;
}

function once<T>(make: () => T): () => T {
  let made: { readonly value: T } | undefined;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}
