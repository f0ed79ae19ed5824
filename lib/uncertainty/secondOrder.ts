import { failure, type Outcome, success } from "../base/outcome.ts";
import { cumulantsOf } from "./internals/cumulants.ts";
import { keepsTolerance, numericalTolerance } from "./numericalTolerance.ts";
import type { Source } from "./source.ts";
import { type SourceDistribution, standardUncertaintyOf } from "./sourceDistribution.ts";
import { Tape } from "./tape.ts";
import type { Uncertain } from "./uncertain.ts";

/** What the bend of a model adds to the variance of a result, to the order of u⁴. */
export interface SecondOrder {
  /** u of first order, in the unit of the result. */
  readonly firstOrder: number;
  /** u with the terms of second order. */
  readonly standardUncertainty: number;
  /** What that may be off for numerical reasons. */
  readonly doubt: number;
  /** Added to the variance of first order; below 0 where the bend draws the result together. */
  readonly variance: number;
  /** ½ Σ ∂²f/∂xᵢ² u²(xᵢ): how far the expectation lies beside the value at the best estimates. */
  readonly shift: number;
  /** The pairs of sources that add most to the variance, of either sign, the largest first; a source may stand beside itself. */
  readonly terms: readonly SecondOrderTerm[];
}

export interface SecondOrderTerm {
  readonly sources: readonly [Source, Source];
  /** To the variance, both orders of the pair together. */
  readonly variance: number;
}

/**
 * Whether the terms of second order matter: they change u by more than its numerical tolerance, half a unit in the last of its significant digits, which
 * is what first order is allowed to be off (JCGM 101:2008, 7.9.2 and clause 8).
 *
 * @param digits significant digits of u that count
 */
export function secondOrderMatters(
  { firstOrder, standardUncertainty, doubt }: SecondOrder,
  digits: number,
): "matters" | "does not matter" | "not known" {
  const told = firstOrder > 0 ? firstOrder : standardUncertainty;
  if (told === 0) return "does not matter";
  const keeps = keepsTolerance(Math.abs(standardUncertainty - firstOrder), doubt, numericalTolerance(told, digits));
  return keeps === undefined ? "not known" : keeps ? "does not matter" : "matters";
}

/** Pairs of sources that are told. */
const toldTerms = 3;
/** More derivatives than this, of all results together, would fill the memory. */
const mostDerivatives = 2e7;

/**
 * The terms of the combined variance that follow those of first order where the model is curved (JCGM 100:2008, 5.1.2, note):
 *
 *     Σᵢ Σⱼ [½ (∂²f/∂xᵢ∂xⱼ)² + ∂f/∂xᵢ ∂³f/∂xᵢ∂xⱼ²] u²(xᵢ) u²(xⱼ)
 *
 * which is exact to the order of u⁴ for normal sources. The same expansion with a source's own third and fourth cumulants κ adds
 * κ₃ ∂f/∂x ∂²f/∂x² + κ₄ (¼ (∂²f/∂x²)² + ⅓ ∂f/∂x ∂³f/∂x³) for each that is not normal; repeated readings count as normal, as they do in u.
 *
 * Second and third derivatives are first and second differences of the exact gradient, taken at half and at one standard uncertainty to
 * either side and extrapolated to nothing: what the extrapolation changes is the doubt. A step of the model that is solved is solved again
 * at each place. Sources that enter linear steps alone have no such derivatives and cost nothing.
 *
 * @returns for each result, or why it is not known: the model has no value within one standard uncertainty, the terms leave no variance, or
 * there are too many sources
 */
export function secondOrder(results: readonly Uncertain[]): Outcome<SecondOrder>[] {
  const tape = new Tape(results);
  const units = Float64Array.from(tape.sources, ({ distribution }) => standardUncertaintyOf(distribution));
  const curved = tape.curved().flatMap((isCurved, i) => (isCurved && (units[i] as number) > 0 ? [i] : []));
  if (curved.length ** 2 * results.length > mostDerivatives) return results.map(() => failure(tooMany(curved.length)));
  const bends = results.map((_, output) => new Bend(tape, output, units, curved));
  const width = tape.sources.length;
  const places = Float64Array.from(tape.sources, ({ estimate }) => estimate);
  curved.forEach((source, place) => {
    const unit = units[source] as number;
    const estimate = places[source] as number;
    const rows = steps.map((step) => {
      places[source] = estimate + step * unit;
      return tape.sensitivitiesAt(places);
    });
    places[source] = estimate;
    bends.forEach((bend, output) => {
      bend.addSource(place, rows, output * width);
    });
  });
  return bends.map((bend) => bend.summary());
}

/** In standard uncertainties of the source that is displaced. */
const steps = [-1, -0.5, 0.5, 1] as const;

/** Second and third derivatives of one result, times the standard uncertainties of their sources. */
class Bend {
  private readonly tape: Tape;
  private readonly gradient: Float64Array;
  private readonly units: Float64Array;
  private readonly curved: readonly number[];
  /** Terms of the variance by pair of curved sources, the lower place first; the second from the wider step alone. */
  private readonly pairs: Float64Array;
  private readonly widerPairs: Float64Array;
  private shift = 0;

  constructor(tape: Tape, output: number, units: Float64Array, curved: readonly number[]) {
    this.tape = tape;
    this.gradient = tape.sensitivities(output);
    this.units = units;
    this.curved = curved;
    this.pairs = new Float64Array(curved.length ** 2);
    this.widerPairs = new Float64Array(curved.length ** 2);
  }

  /**
   * @param place of the displaced source among the curved ones
   * @param rows gradients of all results with it displaced by the four steps
   * @param first where the gradient of this result begins in them
   */
  addSource(place: number, rows: readonly Float64Array[], first: number): void {
    // Without a list or a tuple in the loop: it runs for every pair of sources of every result.
    const [farBelow, below, above, farAbove] = rows as [Float64Array, Float64Array, Float64Array, Float64Array];
    const { gradient, units, curved, pairs, widerPairs } = this;
    const count = curved.length;
    const { skewness, excess } = shapeOf((this.tape.sources[curved[place] as number] as Source).distribution);
    for (let other = 0; other < count; other++) {
      const i = curved[other] as number;
      const unit = units[i] as number;
      const middle = unit * (gradient[i] as number);
      const low = unit * (below[first + i] as number);
      const lower = unit * (farBelow[first + i] as number);
      const high = unit * (above[first + i] as number);
      const higher = unit * (farAbove[first + i] as number);
      // Times the unit of the displaced source, and its square.
      const near = high - low;
      const nearBend = 4 * (high - 2 * middle + low);
      const wide = (higher - lower) / 2;
      const wideBend = higher - 2 * middle + lower;
      const second = (4 * near - wide) / 3;
      const third = (4 * nearBend - wideBend) / 3;
      const cell = Math.min(place, other) * count + Math.max(place, other);
      const isOwn = other === place;
      pairs[cell] = (pairs[cell] as number) + (isOwn ? ownTerm(second, third, middle, skewness, excess) : pairTerm(second, third, middle));
      widerPairs[cell] =
        (widerPairs[cell] as number) + (isOwn ? ownTerm(wide, wideBend, middle, skewness, excess) : pairTerm(wide, wideBend, middle));
      if (isOwn) this.shift += second / 2;
    }
  }

  summary(): Outcome<SecondOrder> {
    const { gradient, units, pairs, widerPairs, shift } = this;
    const first = gradient.reduce((total, derivative, i) => total + (derivative * (units[i] as number)) ** 2, 0);
    const variance = pairs.reduce((total, term) => total + term, 0);
    const wider = widerPairs.reduce((total, term) => total + term, 0);
    if (!Number.isFinite(variance) || !Number.isFinite(wider)) return failure(noValue);
    const whole = first + variance;
    if (whole < 0) return failure(nothingLeft);
    const standardUncertainty = Math.sqrt(whole);
    const doubt = Math.abs(standardUncertainty - Math.sqrt(Math.max(0, first + wider)));
    return success({ firstOrder: Math.sqrt(first), standardUncertainty, doubt, variance, shift, terms: this.largestTerms() });
  }

  private largestTerms(): SecondOrderTerm[] {
    const { pairs, curved, tape } = this;
    const largest: number[] = [];
    const sizeOf = (cell: number) => Math.abs(pairs[cell] as number);
    for (let cell = 0; cell < pairs.length; cell++) {
      if (!(sizeOf(cell) > 0)) continue;
      const place = largest.findIndex((known) => sizeOf(cell) > sizeOf(known));
      if (place >= 0) largest.splice(place, 0, cell);
      else if (largest.length < toldTerms) largest.push(cell);
      largest.length = Math.min(largest.length, toldTerms);
    }
    const sourceAt = (place: number) => tape.sources[curved[place] as number] as Source;
    return largest.map((cell) => ({
      sources: [sourceAt(Math.floor(cell / curved.length)), sourceAt(cell % curved.length)],
      variance: pairs[cell] as number,
    }));
  }
}

/** What two sources add, the first of them displaced: the second derivative is that of both, the third that by the displaced one twice. */
function pairTerm(second: number, third: number, derivative: number): number {
  return 0.5 * second * second + derivative * third;
}

/** What a source adds by itself, with its own third and fourth cumulants. */
function ownTerm(second: number, third: number, derivative: number, skewness: number, excess: number): number {
  return second * second * (0.5 + excess / 4) + derivative * third * (1 + excess / 3) + skewness * derivative * second;
}

/** Third and fourth cumulants in standard uncertainties: skewness and excess. */
function shapeOf(distribution: SourceDistribution): { readonly skewness: number; readonly excess: number } {
  if (distribution.shape === "exponential") return { skewness: 2, excess: 6 };
  const cumulants = distribution.shape === "scaledT" ? undefined : cumulantsOf(distribution);
  return { skewness: 0, excess: cumulants === undefined ? 0 : cumulants.fourth / cumulants.second ** 2 };
}

const noValue = {
  at: "",
  what: "the terms of second order are not known: the model has no value, or no derivative, within one standard uncertainty of some source",
  remedy: "run trials",
} as const;

const nothingLeft = {
  at: "",
  what: "the terms of second order are not known: they would leave no variance, so that the model is too curved for them",
  remedy: "run trials",
} as const;

const tooMany = (sources: number) => ({
  at: "",
  what: "the terms of second order are not worked out for so many sources",
  got: `${sources}`,
  remedy: "run trials",
});
