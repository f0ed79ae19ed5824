import type { Distribution } from "../distribution.ts";
import { completeDistribution } from "../internals/completeDistribution.ts";
import { momentsOf, type OutputTally, tallyCells, tallyReach } from "./trialTally.ts";

/** Chance that the empirical distribution is nowhere farther from the true one than `error` says. */
const confidence = 0.95;

/**
 * The distribution of a result as trials have found it: counts in cells, straight between their edges. Mean and standard deviation are those of
 * the trials themselves. `error` bounds the cumulative everywhere at once with 95 % confidence (A. Dvoretzky, J. Kiefer, J. Wolfowitz 1956,
 * constant of P. Massart 1990), and adds the largest cell and what lies beyond all cells.
 *
 * Trials without a value are left out here; a caller says how many there were.
 *
 * @throws RangeError when no trial has a value
 */
export function tallyDistribution(tally: OutputTally): Distribution {
  const { count, mean, standardDeviation } = momentsOf(tally);
  if (count === 0) throw new RangeError(`${tally.name}: expected at least one trial with a value, got none`);
  const { edges, chances } = cumulativeOf(tally, count);
  const width = (2 * tallyReach * tally.scale) / tallyCells;
  const core = {
    mean,
    standardDeviation,
    density: (y: number) => {
      // Over a few cells, as wide as the trials can tell.
      const half = Math.max(width, standardDeviation * count ** (-1 / 5) * 0.5);
      return (interpolate(edges, chances, y + half) - interpolate(edges, chances, y - half)) / (2 * half);
    },
    cumulative: (y: number) => interpolate(edges, chances, y),
    quantile: (p: number) => interpolate(chances, edges, p),
    error: Math.sqrt(Math.log(2 / (1 - confidence)) / (2 * count)) + (largestOf(tally.counts) + tally.below + tally.above) / count,
    method: `${count} trials`,
  };
  const distribution = completeDistribution(core, false);
  return {
    ...distribution,
    interval: (probability, kind) =>
      kind === "symmetric" ? distribution.interval(probability, kind) : shortestInterval(distribution, probability),
  };
}

function largestOf(counts: Float64Array): number {
  let largest = 0;
  for (let cell = 0; cell < counts.length; cell++) if ((counts[cell] as number) > largest) largest = counts[cell] as number;
  return largest;
}

/** Chance up to every edge at which it grows; both rising. */
function cumulativeOf({ centre, scale, counts, below, least, most }: OutputTally, count: number) {
  const width = (2 * tallyReach * scale) / tallyCells;
  const first = centre - tallyReach * scale;
  const edges = [least];
  const chances = [0];
  let counted = below;
  for (let cell = 0; cell < tallyCells; cell++) {
    const inCell = counts[cell] as number;
    if (inCell === 0) continue;
    const start = Math.max(least, first + cell * width);
    if (counted / count > (chances.at(-1) as number) || start > (edges.at(-1) as number)) {
      edges.push(start);
      chances.push(counted / count);
    }
    counted += inCell;
    edges.push(Math.min(most, first + (cell + 1) * width));
    chances.push(counted / count);
  }
  edges.push(most);
  chances.push(1);
  return { edges, chances };
}

/** y at x on the line through the points; the ends beyond them. */
function interpolate(xs: readonly number[], ys: readonly number[], x: number): number {
  if (x <= (xs[0] as number)) return ys[0] as number;
  let low = 0;
  let high = xs.length - 1;
  if (x >= (xs[high] as number)) return ys[high] as number;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((xs[middle] as number) <= x) low = middle;
    else high = middle;
  }
  const from = xs[low] as number;
  const to = xs[high] as number;
  const share = to > from ? (x - from) / (to - from) : 1;
  return (ys[low] as number) + share * ((ys[high] as number) - (ys[low] as number));
}

const scanSteps = 200;
/** Starts whose interval is longer than the shortest found by more than this do not tell where the shortest is. */
const nearShortest = 1.02;

/**
 * The shortest of the intervals that trials show is a matter of chance: its ends scatter much more than those of a fixed interval. The length as
 * a function of the chance left below is smooth, so a parabola through all lengths near the smallest tells where it is.
 */
function shortestInterval({ quantile }: Distribution, probability: number): readonly [number, number] {
  const outside = 1 - probability;
  const starts = Array.from({ length: scanSteps - 1 }, (_, k) => (outside * (k + 1)) / scanSteps);
  const lengths = starts.map((below) => quantile(below + probability) - quantile(below));
  const shortest = Math.min(...lengths);
  const near = starts.flatMap((below, k) =>
    (lengths[k] as number) <= nearShortest * shortest ? [{ x: below / outside, y: lengths[k] as number }] : [],
  );
  const below = outside * Math.min(1, Math.max(0, vertexOf(near)));
  return [quantile(below), quantile(below + probability)];
}

/** Where the least-squares parabola through the points is lowest; the lowest point where it has no bottom. */
function vertexOf(points: readonly { readonly x: number; readonly y: number }[]): number {
  const lowest = points.reduce((a, b) => (b.y < a.y ? b : a));
  if (points.length < 5) return lowest.x;
  const middle = points.reduce((total, { x }) => total + x, 0) / points.length;
  const power = (k: number) => points.reduce((total, { x }) => total + (x - middle) ** k, 0);
  const against = (k: number) => points.reduce((total, { x, y }) => total + (x - middle) ** k * y, 0);
  const [n, s2, s3, s4] = [points.length, power(2), power(3), power(4)];
  const [t0, t1, t2] = [against(0), against(1), against(2)];
  // Normal equations with Σ(x - middle) = 0, solved for the first two coefficients after the constant.
  const a11 = s4 - (s2 * s2) / n;
  const a12 = s3;
  const a22 = s2;
  const determinant = a11 * a22 - a12 * a12;
  const bend = ((t2 - (s2 * t0) / n) * a22 - a12 * t1) / determinant;
  const slope = (a11 * t1 - a12 * (t2 - (s2 * t0) / n)) / determinant;
  return bend > 0 ? middle - slope / (2 * bend) : lowest.x;
}
