import { leastSquares } from "../base/leastSquares.ts";
import { entryOf, matrixOf, rankOf, type SingularValues, singularValues } from "../base/matrix.ts";

/** What can still be changed about a measured part's zero: shifts, mm, and a turn, radian. */
export interface ZeroChange {
  readonly shift: readonly [x: number, y: number, z: number];
  readonly turn: number;
}

/** What a change of the zero does to a length, mm per mm along X, Y and Z, and mm per radian. */
export type Effects = readonly [x: number, y: number, z: number, turn: number];

/** A demand of the drawing on a measured part. */
export interface MeasuredDemand {
  readonly id: string;
  /** Two in a round zone, one otherwise: how far off it is, mm, and what changes that. */
  readonly components: readonly { readonly deviation: number; readonly effects: Effects }[];
  /** Diameter of a round zone, or limits of the deviation (the upper one up to `Infinity`), mm. */
  readonly tolerance: { readonly zone: number } | { readonly lower: number; readonly upper: number };
}

/** A change of the zero and what share of each tolerance is used with it, 1 for all. */
export interface ChangedZero {
  readonly change: ZeroChange;
  readonly shares: readonly number[];
  readonly largestShare: number;
}

/** What a feature at a place feels of a change: dx = sx - θ y, dy = sy + θ x, dz = sz. */
export function effectsAt([x, y]: readonly [number, number], axis: "X" | "Y" | "Z"): Effects {
  if (axis === "X") return [1, 0, 0, -y];
  return axis === "Y" ? [0, 1, 0, x] : [0, 0, 1, 0];
}

/** With nothing changed, or with a given change. */
export function sharesAfter(demands: readonly MeasuredDemand[], change: ZeroChange = unchanged): ChangedZero {
  const by = [...change.shift, change.turn];
  const shares = demands.map((demand) => shareOf(demand, by));
  return { change, shares, largestShare: Math.max(0, ...shares) };
}

const unchanged: ZeroChange = { shift: [0, 0, 0], turn: 0 };

/**
 * The change that leaves the least sum of squared deviations from the middles of their tolerances (what a best fit usually means).
 * Of what nothing depends on, nothing is changed; nor is anything turned where all features lie within a millimetre of each other.
 */
export function leastSquaresZero(demands: readonly MeasuredDemand[], turning: boolean): ChangedZero {
  const { rows, basis, lift } = coordinates(demands, turning);
  if (basis === 0 || rows.length === 0) return sharesAfter(demands);
  const a = Float64Array.from(rows.flatMap(({ by }) => by));
  const b = Float64Array.from(rows, ({ off }) => -off);
  const x = new Float64Array(basis);
  leastSquares(rows.length, basis, a, b, x);
  return sharesAfter(demands, lift([...x]));
}

/**
 * The change that makes the largest share of any tolerance as small as can be. Shares are convex in the change, so that the one minimum is found by
 * following the centres of a logarithmic barrier (S. Boyd, L. Vandenberghe, Convex Optimization (2004), 11.3) until the largest share is known to
 * 1e-9.
 */
export function smallestLargestShare(demands: readonly MeasuredDemand[], turning: boolean): ChangedZero {
  const { basis, lift, local } = coordinates(demands, turning);
  if (basis === 0 || demands.length === 0) return sharesAfter(demands);
  const cones = demands.map((demand, i) => coneOf(demand, local[i] as readonly (readonly number[])[]));
  const now = new Float64Array(basis + 1);
  now[basis] = sharesAfter(demands).largestShare * 1.1 + 0.1;
  for (let weight = 1; weight < 2 * cones.length * 1e10; weight *= 8) centre(now, cones, weight);
  return sharesAfter(demands, lift([...now.subarray(0, basis)]));
}

/** The demand's side conditions |c| ≤ t · half as products that have to stay above 0. */
interface Cone {
  /** Where it is at no change, less the middle, mm. */
  readonly off: readonly number[];
  readonly by: readonly (readonly number[])[];
  /** mm that a share of 1 allows. */
  readonly half: number;
  /** Only one side is limited: -c ≤ t · half. */
  readonly oneSided: boolean;
}

function coneOf({ components, tolerance }: MeasuredDemand, by: readonly (readonly number[])[]): Cone {
  const { middle, half, oneSided } = allowed(tolerance);
  return { off: components.map(({ deviation }) => deviation - middle), by, half, oneSided };
}

function allowed(tolerance: MeasuredDemand["tolerance"]) {
  if ("zone" in tolerance) return { middle: 0, half: tolerance.zone / 2, oneSided: false };
  const { lower, upper } = tolerance;
  if (upper === Number.POSITIVE_INFINITY) return { middle: 0, half: -lower, oneSided: true };
  return { middle: (lower + upper) / 2, half: (upper - lower) / 2, oneSided: false };
}

function shareOf({ components, tolerance }: MeasuredDemand, change: readonly number[]): number {
  const { middle, half, oneSided } = allowed(tolerance);
  const off = components.map(({ deviation, effects }) =>
    effects.reduce((sum, effect, k) => sum + effect * (change[k] as number), deviation - middle),
  );
  return oneSided ? Math.max(0, -(off[0] as number) / half) : Math.hypot(...off) / half;
}

/**
 * The changes that the demands feel, in directions at right angles to each other and of the demands' own size: what nothing feels is left out, and
 * turns and shifts are alike. A turn is one about the middle of the features, where a shift does not do the same.
 */
function coordinates(demands: readonly MeasuredDemand[], turning: boolean) {
  const components = demands.flatMap(({ components: each, tolerance }) =>
    each.map((component) => ({ ...component, ...allowed(tolerance) })),
  );
  const shifts = singularValues(matrixOf(components.length, 3, (i, k) => components[i]?.effects[k] as number));
  const rank = rankOf(shifts, 1e-9);
  const turn = turning ? turnBesideShifts(components, shifts, rank) : undefined;
  const basis = rank + (turn === undefined ? 0 : 1);
  const direction = (effects: readonly number[]) =>
    Array.from({ length: basis }, (_, j) => {
      if (turn === undefined || j < rank) return along(effects, (k) => entryOf(shifts.right, k, j)) / (shifts.values[j] as number);
      return ((effects[3] as number) - along(effects, (k) => turn.asShift[k] as number)) / turn.size;
    });
  return {
    basis,
    rows: components.map(({ deviation, effects, middle }) => ({ off: deviation - middle, by: direction(effects) })),
    local: demands.map(({ components: each }) => each.map(({ effects }) => direction(effects))),
    lift: (x: readonly number[]): ZeroChange => {
      const radians = turn === undefined ? 0 : (x[rank] as number) / turn.size;
      const shift = (k: number) => {
        let sum = turn === undefined ? 0 : -(turn.asShift[k] as number) * radians;
        for (let j = 0; j < rank; j++) sum += (entryOf(shifts.right, k, j) * (x[j] as number)) / (shifts.values[j] as number);
        return sum;
      };
      return { shift: [shift(0), shift(1), shift(2)], turn: radians };
    },
  };
}

/** What a shift makes of effects along X, Y and Z. */
function along(effects: readonly number[], shift: (axis: number) => number): number {
  return (effects[0] as number) * shift(0) + (effects[1] as number) * shift(1) + (effects[2] as number) * shift(2);
}

/**
 * The least lever, mm, about the middle of the features that a turn needs: what is 0.05 mm off at a shorter one asks for a turn so large that a
 * small turn's rule dx = -θ y is out by more than 0.05²/2 mm, a micrometre. Common practice, no source.
 */
const leastLever = 1;

/** The shift that does most nearly what a turn of a radian does, and the size of what a turn does besides; undefined where that is next to nothing. */
function turnBesideShifts(components: readonly { readonly effects: Effects }[], { values, left, right }: SingularValues, rank: number) {
  const asShift = new Float64Array(3);
  for (let j = 0; j < rank; j++) {
    const product = components.reduce((sum, { effects }, i) => sum + effects[3] * entryOf(left, i, j), 0) / (values[j] as number);
    for (let k = 0; k < 3; k++) asShift[k] = (asShift[k] as number) + product * entryOf(right, k, j);
  }
  const levers = components.map(({ effects }) => effects[3] - along(effects, (k) => asShift[k] as number));
  if (!levers.some((lever) => Math.abs(lever) >= leastLever)) return undefined;
  return { asShift, size: Math.hypot(...levers) };
}

/** Newton's method to the centre of weight · t - Σ log(conditions); `now` holds the change and t and is moved there. */
function centre(now: Float64Array, cones: readonly Cone[], weight: number): void {
  for (let round = 0; round < 60; round++) {
    const { gradient, hessian } = slopes(now, cones, weight);
    const step = new Float64Array(now.length);
    if (
      !leastSquares(
        now.length,
        now.length,
        Float64Array.from(hessian),
        gradient.map((each) => -each),
        step,
      )
    )
      return;
    const decrement = -gradient.reduce((sum, each, k) => sum + each * (step[k] as number), 0);
    if (!(decrement > 1e-12)) return;
    let share = 1;
    const before = barrier(now, cones, weight);
    const next = () => now.map((each, k) => each + share * (step[k] as number));
    while (share > 1e-12 && !(barrier(next(), cones, weight) <= before - 0.1 * share * decrement)) share /= 2;
    if (share <= 1e-12) return;
    now.set(next());
  }
}

function barrier(at: Float64Array, cones: readonly Cone[], weight: number): number {
  const t = at[at.length - 1] as number;
  let value = weight * t;
  for (const cone of cones) {
    const c = offsets(cone, at);
    const reach = t * cone.half;
    const inside = cone.oneSided ? reach + (c[0] as number) : reach * reach - c.reduce((sum, each) => sum + each * each, 0);
    if (!(inside > 0 && (cone.oneSided || reach > 0))) return Number.POSITIVE_INFINITY;
    value -= Math.log(inside);
  }
  // A one-sided demand alone would let the share fall below none.
  return t > 0 ? value - Math.log(t) : Number.POSITIVE_INFINITY;
}

function offsets({ off, by }: Cone, at: Float64Array): number[] {
  return off.map((each, i) => (by[i] as readonly number[]).reduce((sum, effect, k) => sum + effect * (at[k] as number), each));
}

function slopes(
  at: Float64Array,
  cones: readonly Cone[],
  weight: number,
): { readonly gradient: Float64Array; readonly hessian: Float64Array } {
  const size = at.length;
  const t = at[size - 1] as number;
  const gradient = new Float64Array(size);
  const hessian = new Float64Array(size * size);
  gradient[size - 1] = weight - 1 / t;
  hessian[size * size - 1] = 1 / (t * t);
  for (const cone of cones) {
    const c = offsets(cone, at);
    const { half } = cone;
    const inside = cone.oneSided ? t * half + (c[0] as number) : t * t * half * half - c.reduce((sum, each) => sum + each * each, 0);
    const row = (i: number, k: number) => (k === size - 1 ? 0 : (cone.by[i]?.[k] as number));
    // First and second derivatives of what has to stay above 0.
    const first = Array.from({ length: size }, (_, k) => {
      if (cone.oneSided) return k === size - 1 ? half : row(0, k);
      return (k === size - 1 ? 2 * t * half * half : 0) - 2 * c.reduce((sum, each, i) => sum + each * row(i, k), 0);
    });
    for (let j = 0; j < size; j++) {
      gradient[j] = (gradient[j] as number) - (first[j] as number) / inside;
      for (let k = 0; k < size; k++) {
        const both = cone.oneSided
          ? 0
          : (j === size - 1 && k === size - 1 ? 2 * half * half : 0) - 2 * c.reduce((sum, _, i) => sum + row(i, j) * row(i, k), 0);
        hessian[j * size + k] =
          (hessian[j * size + k] as number) + ((first[j] as number) * (first[k] as number)) / (inside * inside) - both / inside;
      }
    }
  }
  return { gradient, hessian };
}
