import { once } from "../../base/once.ts";
import type { Distribution } from "../distribution.ts";
import { gaussLegendre } from "../special/gaussLegendre.ts";
import type { Covariance2, Vector2 } from "./chords.ts";
import { completeDistribution } from "./completeDistribution.ts";
import { type PlanarIngredients, planarCovariance } from "./planarIngredients.ts";
import { heavyVariance } from "./radialGrids.ts";
import type { RadialLaw } from "./radialLaw.ts";

/** The full distribution from the chance within a radius; all but `scale` in units of `scale`. */
export function distributionOfRadius(law: RadialLaw, mean: Vector2, sum: PlanarIngredients, scale: number): Distribution {
  const within = (radius: number) => {
    if (radius === Number.POSITIVE_INFINITY) return 1;
    return radius > 0 ? Math.min(1, Math.max(0, law.evaluate(radius)[0])) : 0;
  };
  const fewest = Math.min(...sum.students.map(({ degreesOfFreedom }) => degreesOfFreedom));
  const [xx, xy, yy] = planarCovariance(sum, fewest > 2 ? Number.POSITIVE_INFINITY : heavyVariance);
  const meanSquare = mean[0] * mean[0] + mean[1] * mean[1] + xx + yy;
  const typical = Math.sqrt(meanSquare);
  const spread = Math.sqrt(xx + yy);
  const distance = Math.hypot(...mean);
  const moments = once(() =>
    distance > farOff * spread
      ? farMoments(mean, distance, [xx, xy, yy])
      : momentsOf(within, quantileOf(law, 0.5, typical, spread), spread, law.error),
  );
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
 * E (ρ - m)² = 2 ∫ |ρ - m| (1 - F, or F) dρ; panel by panel outwards until nothing is left to add. Good to about 1e-5 of the spread.
 */
function momentsOf(
  within: (radius: number) => number,
  median: number,
  spread: number,
  error: number,
): { mean: number; standardDeviation: number } {
  let first = 0;
  let second = 0;
  for (const direction of [1, -1]) {
    const rest = (off: number) => (direction === 1 ? 1 - within(median + off) : within(median - off));
    const end = direction === 1 ? Number.POSITIVE_INFINITY : median;
    for (let from = 0, to = 0; from < end; from = to) {
      to = Math.min(end, from + Math.max(spread, from / 2));
      const [area, moment] = refined(rest, from, to, areas(rest, from, to), Math.max(1e-6, 10 * error) * spread, deepest);
      first += direction * area;
      second += 2 * moment;
      if (!(area > error * (to - from))) break;
    }
  }
  return { mean: median + first, standardDeviation: Math.sqrt(Math.max(0, second - first * first)) };
}

/** ∫ f and ∫ x f over an interval. */
type Areas = readonly [area: number, moment: number];

function areas(f: (x: number) => number, from: number, to: number): Areas {
  let area = 0;
  let moment = 0;
  for (const [k, node] of rule.nodes.entries()) {
    const x = (from + to) / 2 + ((to - from) / 2) * node;
    const part = ((to - from) / 2) * (rule.weights[k] as number) * f(x);
    area += part;
    moment += x * part;
  }
  return [area, moment];
}

/** Halves the interval until the two halves together tell nothing new. */
function refined(f: (x: number) => number, from: number, to: number, whole: Areas, tolerance: number, depth: number): Areas {
  const middle = (from + to) / 2;
  const left = areas(f, from, middle);
  const right = areas(f, middle, to);
  const sum: Areas = [left[0] + right[0], left[1] + right[1]];
  if (depth === 0 || Math.abs(sum[0] - whole[0]) <= tolerance) return sum;
  const [a, b] = [refined(f, from, middle, left, tolerance / 2, depth - 1), refined(f, middle, to, right, tolerance / 2, depth - 1)];
  return [a[0] + b[0], a[1] + b[1]];
}

const rule = gaussLegendre(6);
const deepest = 7;

/**
 * The same for a cloud far from the origin, where ρ = |m| + a + b²/(2|m|) + ... with a along the mean and b across: the first
 * terms left out are (spread / |m|)² of those kept.
 */
function farMoments([x, y]: Vector2, distance: number, [xx, xy, yy]: Covariance2): { mean: number; standardDeviation: number } {
  const along = (x * x * xx + 2 * x * y * xy + y * y * yy) / distance ** 2;
  return { mean: distance + (xx + yy - along) / (2 * distance), standardDeviation: Math.sqrt(Math.max(0, along)) };
}

/** In spreads: from here the moments by expansion are good to 1e-4. */
const farOff = 100;
