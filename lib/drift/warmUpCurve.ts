import { leastSquares } from "../base/leastSquares.ts";
import { type Matrix, matrixOf, multiply, pseudoInverse, transpose } from "../base/matrix.ts";
import { failure, type Outcome, success } from "../base/outcome.ts";

/** A reading of the same surface with the same tool, some time after the start. */
export interface TimedReading {
  /** Minutes since the machine was started. */
  readonly minutes: number;
  /** mm */
  readonly value: number;
}

/** How a zero moves while the machine warms: value(t) = start + rise · (1 − exp(−t / timeConstant)). */
export interface WarmUpCurve {
  /** mm, at the start; as stated, or as found. */
  readonly start: number;
  /** What it comes to in the end, mm; signed. */
  readonly rise: number;
  /** Minutes after which 63 % of it has come. */
  readonly timeConstant: number;
  /** Of start, rise and time constant (mm, mm, minutes), in this order; a stated start has rows of zeros. */
  readonly covariance: Matrix;
  /** Scatter of a single reading about the curve, mm, with `degreesOfFreedom`. */
  readonly residualStandardDeviation: number;
  readonly degreesOfFreedom: number;
  /** Reading less curve, mm, in the order of the readings. */
  readonly residuals: readonly number[];
}

/**
 * The curve through readings of a warm-up by least squares with equal weights: the first-order answer of a body that is heated evenly, dz(t) =
 * A · (1 − exp(−t/τ)). NIST's Misra1a is the same model.
 *
 * Where the readings do not bend, time constant and rise cannot be told apart, and no curve is given: one that is drawn on beyond its last reading
 * would be made up.
 *
 * @param readings in any order; at least one more than there are unknowns
 * @param start the value at 0 minutes where it is known, mm; found from the readings when left out
 */
export function fitWarmUp(readings: readonly TimedReading[], start?: number): Outcome<WarmUpCurve> {
  const unknowns = start === undefined ? 3 : 2;
  if (readings.length <= unknowns)
    return failure(problem(`${readings.length} readings`, `at least ${unknowns + 1}: fewer tell nothing about scatter`));
  if (!readings.every(({ minutes, value }) => Number.isFinite(minutes) && minutes >= 0 && Number.isFinite(value)))
    return failure(problem("a time or a reading that is no number", "minutes since the start, 0 or more, and finite readings"));
  const longest = Math.max(...readings.map(({ minutes }) => minutes));
  if (new Set(readings.map(({ minutes }) => minutes)).size < unknowns + (start === undefined ? 0 : 1) || !(longest > 0))
    return failure(problem("too few different times", "readings at several times after the start"));

  const found = descend(readings, start, bestOnGrid(readings, start, longest));
  const curve = found && withDoubt(readings, start, found);
  if (curve === undefined || !bends(curve, longest))
    return failure({
      ...problem("readings that do not bend as a warm-up does", "a drift that is steep at first and levels off"),
      remedy: "go on reading until it levels off",
    });
  return success(curve);
}

/** The doubt of the time constant is to leave something of it; even the best readings do not tell one far longer than they took. */
function bends(curve: WarmUpCurve, longest: number): boolean {
  return 2 * standardUncertaintyOf(curve, "timeConstant") < curve.timeConstant && curve.timeConstant < straight * longest;
}

/** Time constants are sought from such a part of the longest time, a step, to so many times it, a straight line. */
const momentary = 4000;
const straight = 20;

const order = ["start", "rise", "timeConstant"] as const;

/** u of one of what was found: mm, or minutes. */
export function standardUncertaintyOf({ covariance }: WarmUpCurve, of: (typeof order)[number]): number {
  const i = order.indexOf(of);
  return Math.sqrt(covariance.entries[4 * i] as number);
}

interface Found {
  readonly start: number;
  readonly rise: number;
  readonly timeConstant: number;
}

/** dz at a time since the start, mm. */
export function driftAt({ rise, timeConstant }: Pick<WarmUpCurve, "rise" | "timeConstant">, minutes: number): number {
  return -rise * Math.expm1(-minutes / timeConstant);
}

/** Given its time constant the curve is linear in the rest (variable projection: G. H. Golub, V. Pereyra, SIAM J. Numer. Anal. 10 (1973) 413). */
function givenTimeConstant(
  readings: readonly TimedReading[],
  start: number | undefined,
  timeConstant: number,
): { readonly found: Found; readonly squares: number } {
  const columns = start === undefined ? 2 : 1;
  // Less the first reading: a drift of micrometres is not to be lost in hundreds of millimetres.
  const base = start ?? (readings[0] as TimedReading).value;
  const a = Float64Array.from(
    readings.flatMap(({ minutes }) => [driftAt({ rise: 1, timeConstant }, minutes), ...(columns === 2 ? [1] : [])]),
  );
  const b = Float64Array.from(readings, ({ value }) => value - base);
  const x = new Float64Array(columns);
  leastSquares(readings.length, columns, a, b, x);
  const found = { start: base + (x[1] ?? 0), rise: x[0] as number, timeConstant };
  return { found, squares: squaresOf(readings, found) };
}

function squaresOf(readings: readonly TimedReading[], found: Found): number {
  return residualsOf(readings, found).reduce((total, residual) => total + residual * residual, 0);
}

function residualsOf(readings: readonly TimedReading[], found: Found): number[] {
  return readings.map(({ minutes, value }) => value - found.start - driftAt(found, minutes));
}

/** The best of time constants from far below to far above what the readings can tell. */
function bestOnGrid(readings: readonly TimedReading[], start: number | undefined, longest: number): Found {
  const steps = 60;
  const [least, most] = [longest / momentary, longest * straight];
  const tried = Array.from({ length: steps + 1 }, (_, i) => givenTimeConstant(readings, start, least * (most / least) ** (i / steps)));
  return tried.reduce((best, next) => (next.squares < best.squares ? next : best)).found;
}

/** Gauss-Newton in all unknowns; a step that makes it worse is halved. Undefined where it does not come to rest. */
function descend(readings: readonly TimedReading[], start: number | undefined, from: Found): Found | undefined {
  let now = from;
  let squares = squaresOf(readings, now);
  for (let round = 0; round < mostRounds; round++) {
    const step = stepOf(readings, start, now);
    if (step === undefined) return undefined;
    let share = 1;
    let next = stepped(now, step, share);
    while (share > smallestShare && !(next.timeConstant > 0 && squaresOf(readings, next) <= squares)) {
      share /= 2;
      next = stepped(now, step, share);
    }
    if (share <= smallestShare) return now;
    const nearer = Math.abs(next.timeConstant - now.timeConstant) > 4 * Number.EPSILON * now.timeConstant;
    now = next;
    squares = squaresOf(readings, now);
    if (!nearer) return now;
  }
  return undefined;
}

const mostRounds = 200;
/** Below it rounding decides what is better. */
const smallestShare = 1e-6;

function stepped({ start, rise, timeConstant }: Found, [byStart, byRise, byTime]: readonly [number, number, number], share: number): Found {
  return { start: start + share * byStart, rise: rise + share * byRise, timeConstant: timeConstant + share * byTime };
}

function stepOf(readings: readonly TimedReading[], start: number | undefined, now: Found): readonly [number, number, number] | undefined {
  const columns = start === undefined ? 3 : 2;
  const a = Float64Array.from(readings.flatMap(({ minutes }) => derivativesAt(now, minutes, start === undefined)));
  const x = new Float64Array(columns);
  if (!leastSquares(readings.length, columns, a, Float64Array.from(residualsOf(readings, now)), x) || !x.every(Number.isFinite))
    return undefined;
  const [byRise, byTime, byStart = 0] = x;
  return [byStart, byRise as number, byTime as number];
}

/** By rise, by time constant and, where it is sought, by start. */
function derivativesAt({ rise, timeConstant }: Found, minutes: number, startSought: boolean): number[] {
  const share = minutes / timeConstant;
  return [-Math.expm1(-share), (-rise * share * Math.exp(-share)) / timeConstant, ...(startSought ? [1] : [])];
}

/** The covariance s²·(JᵀJ)⁻¹ of the linearised fit. */
function withDoubt(readings: readonly TimedReading[], start: number | undefined, found: Found): WarmUpCurve {
  const sought = start === undefined ? 3 : 2;
  const rows = readings.map(({ minutes }) => derivativesAt(found, minutes, start === undefined));
  const scale = rows[0]?.map((_, column) => Math.hypot(...rows.map((row) => row[column] as number))) as number[];
  const jacobian = matrixOf(rows.length, sought, (i, j) => (rows[i]?.[j] as number) / (scale[j] as number));
  const inverse = pseudoInverse(multiply(transpose(jacobian), jacobian), 0);
  const residuals = residualsOf(readings, found);
  const degreesOfFreedom = readings.length - sought;
  const variance = residuals.reduce((total, residual) => total + residual * residual, 0) / degreesOfFreedom;
  // Told as start, rise, time constant; found as rise, time constant, start.
  const columnOf = (told: number) => (told + 2) % 3;
  const covariance = matrixOf(3, 3, (i, j) => {
    const [a, b] = [columnOf(i), columnOf(j)];
    if (a >= sought || b >= sought) return 0;
    return (variance * (inverse.entries[a * sought + b] as number)) / ((scale[a] as number) * (scale[b] as number));
  });
  return { ...found, covariance, residualStandardDeviation: Math.sqrt(variance), degreesOfFreedom, residuals };
}

function problem(got: string, expected: string) {
  return { at: "", what: "no warm-up curve can be found", expected, got };
}
