import { gaussLegendre } from "../special/gaussLegendre.ts";
import type { Covariance2, Vector2 } from "./chords.ts";
import { type PlanarIngredients, planarAngleAt, planarCharacteristicAt } from "./planarIngredients.ts";

/** Averages of the joint characteristic function over all directions, at a given distance s from the origin of frequencies. */
export interface AngleAverage {
  /** φ̄(s). */
  at(s: number): number;
  /** Directions that `at` would use. */
  anglesAt(s: number): number;
}

/**
 * φ̄(s) = (1/π) ∫ cos(s m·e(θ) + the angle of φ) |φ(s e(θ))| dθ over half a turn (the other half is conjugate to it).
 *
 * Equal angles where all is smooth in θ: the trapezoid rule converges geometrically once there are enough of them, and how many depends on
 * s, on the difference of the principal variances and on the mean. A t with few degrees of freedom makes a kink in the direction square to
 * its vector; then Gauss panels lie between the kinks.
 */
export function angleAverage(mean: Vector2, sum: PlanarIngredients, covariance: Covariance2): AngleAverage {
  const [xx, xy, yy] = covariance;
  const spread = Math.hypot(xx - yy, 2 * xy);
  const smaller = Math.max(0, (xx + yy - spread) / 2);
  const distance = Math.hypot(...mean);
  const kinks = kinkAngles(sum);
  const bounded = largestTwo([...sum.boxes, ...sum.arcsines, ...sum.shaped.map(({ scale }) => scale)]);
  const needed = (s: number) => {
    // A normal's φ over θ has Fourier coefficients I_n(κ) e^(-κ) ~ e^(-n²/2κ), κ = s² (difference of variances) / 4.
    const kappa = (s * s * spread) / 4;
    const normal = Math.sqrt(2 * kappa * Math.max(2, digits - (s * s * smaller) / 2));
    // sin(x cos θ) and J0(x cos θ) have Fourier coefficients like Bessel functions of x: none beyond x and a little.
    const waves = kinks.length > 0 ? gaussPerWave : 1;
    return leastAngles + Math.max(normal, waves * harmonics(s * bounded)) + waves * harmonics(s * distance);
  };
  const sets = new Map<number, readonly Direction[]>();
  const levelOf = (s: number) => Math.ceil(Math.log2(needed(s)) * levelsPerOctave);
  const setAt = (level: number) => {
    let set = sets.get(level);
    if (!set) {
      set = directions(2 ** (level / levelsPerOctave), kinks);
      sets.set(level, set);
    }
    return set;
  };
  return {
    at(s) {
      let average = 0;
      for (const { x, y, weight } of setAt(levelOf(s))) {
        const value = planarCharacteristicAt(sum, s * x, s * y);
        if (value !== 0) average += weight * value * Math.cos(s * (mean[0] * x + mean[1] * y) + planarAngleAt(sum, s * x, s * y));
      }
      return average;
    },
    anglesAt: (s) => 2 ** (levelOf(s) / levelsPerOctave) * (kinks.length > 0 ? panelFactor : 1) + kinks.length * panelExtra,
  };
}

interface Direction {
  readonly x: number;
  readonly y: number;
  readonly weight: number;
}

const leastAngles = 16;
/** Natural logarithms of accuracy, of the nearly normal part: 4e-11. */
const digits = 24;
/** Numbers of angles go up in steps of √2, so that few sets of projections are made. */
const levelsPerOctave = 2;
/** Up to here a kink |x|^ν would need more equal angles than the smooth rest. */
const roughDegrees = 12;
const panelFactor = 1.1;
/** Gauss nodes follow a wave with π/2 times as many points as equal ones around a circle. */
const gaussPerWave = Math.PI / 2;
const panelExtra = 4;

function directions(count: number, kinks: readonly number[]): Direction[] {
  const [first] = kinks;
  if (first === undefined) {
    const whole = Math.ceil(count);
    return Array.from({ length: whole }, (_, k) => directionAt((Math.PI * (k + 0.5)) / whole, 1 / whole));
  }
  return kinks.flatMap((start, k) => {
    const end = kinks[k + 1] ?? first + Math.PI;
    const rule = gaussLegendre(Math.ceil((panelFactor * count * (end - start)) / Math.PI) + panelExtra);
    return rule.nodes.map((node, j) =>
      directionAt((start + end) / 2 + ((end - start) / 2) * node, ((end - start) / (2 * Math.PI)) * (rule.weights[j] as number)),
    );
  });
}

function directionAt(angle: number, weight: number): Direction {
  return { x: Math.cos(angle), y: Math.sin(angle), weight };
}

/** Equal angles over half a turn that a wave of phase x·cos θ needs. */
function harmonics(x: number): number {
  return x > 0 ? 0.5 * x + 2 * Math.cbrt(x) : 0;
}

/** Of many bounded sources no more than about two are far from the zeros of their characteristic functions at once. */
function largestTwo(vectors: readonly Vector2[]): number {
  let [first, second] = [0, 0];
  for (const vector of vectors) {
    const size = Math.hypot(...vector);
    if (size > first) [first, second] = [size, first];
    else if (size > second) second = size;
  }
  return first + second;
}

/** Directions from 0 to π square to the vectors of rough t terms, ascending, near ones taken together. */
function kinkAngles({ students }: PlanarIngredients): number[] {
  const angles = students
    .filter(({ degreesOfFreedom }) => degreesOfFreedom <= roughDegrees)
    .map(({ scale }) => (Math.atan2(scale[1], scale[0]) + 2.5 * Math.PI) % Math.PI)
    .sort((a, b) => a - b);
  return angles.filter((angle, k) => k === 0 || angle - (angles[k - 1] as number) > 1e-9);
}
