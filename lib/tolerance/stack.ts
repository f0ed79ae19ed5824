import { farthestOfZonotope } from "../base/zonotope.ts";
import { bonusOf, type LimitedSize, virtualCondition } from "../part/maximumMaterial.ts";
import { type Characteristic, isRound, type RoundCharacteristic, rowOf, unitOf } from "../part/part.ts";
import type { Budget } from "../uncertainty/budget.ts";
import type { ChanceWithError, Distribution } from "../uncertainty/distribution.ts";
import { linearChance } from "../uncertainty/linearChance.ts";
import { type LinearTerm, linearDistribution } from "../uncertainty/linearDistribution.ts";
import { radialChance } from "../uncertainty/radialChance.ts";
import { type RadialTerm, radialDistribution } from "../uncertainty/radialDistribution.ts";
import type { Family, Source } from "../uncertainty/source.ts";
import { standardUncertaintyOf } from "../uncertainty/sourceDistribution.ts";
import { integrate } from "../uncertainty/special/integrate.ts";
import { limitsAtDeviations } from "../uncertainty/statedLimits.ts";
import { independentTerms } from "./independentTerms.ts";
import { boundAbove, boundBelow, type Effect, isUnlimited, linearReaches, middleOf, planarReaches, reachOf } from "./reaches.ts";

/** What one source can do to a characteristic, mm: X and Y in a round zone, one entry otherwise. */
export interface StackRow {
  readonly source: Source;
  readonly family: Family;
  /** Derivatives by the source. */
  readonly sensitivities: readonly number[];
  /** Signed: effect of one standard uncertainty. */
  readonly amounts: readonly number[];
  /** Signed: effect of the source at its upper limit. */
  readonly reaches: readonly number[];
  /** Signed: effect of the source at its lower limit, the opposite of `reaches` unless the source is skewed. */
  readonly opposites: readonly number[];
  /** Whether the limit is `unlimitedAt` standard uncertainties for want of a real one. */
  readonly unlimited: boolean;
}

/** Range of what is compared with the tolerance, mm: a deviation, or the diameter used of a round zone. Limits go up to `Infinity` where there is no upper one. */
export interface Range {
  readonly lower: number;
  readonly upper: number;
}

/**
 * What a zone at maximum material leaves beyond the stated one. Everything else of a stack is told without it, which is the least that a part of
 * any size is allowed. A shift that the size of a datum would leave is no bonus, and is not counted.
 */
export interface Bonus {
  /** Of the sizes within their limits, mm of diameter. */
  readonly range: Range;
  /** Diameter of the boundary that the wall must not cross, mm. */
  readonly virtualCondition: number;
  /**
   * Chance of being within the zone that each part's own size leaves: the chance at a given size, averaged over the sizes. What is cut here is not
   * yet measured; its size is foreseen as in a batch, its limits at three standard deviations, independent of where it is cut. Sizes beyond the limits
   * (0.27 %) are judged by the same boundary, so that with more metal than allowed less than the zone is left and no bonus is claimed. What an axis that
   * leans in its hole takes of the bonus is not counted.
   */
  readonly chance: number;
}

/**
 * How a characteristic meets its tolerance: three readings of one row of
 * sensitivities. In a round zone everything is told as the diameter 2·√(x² + y²),
 * which the zone's diameter limits; of an angle everything is in radians instead of mm. What only a shown stack needs is worked out
 * when it is first asked for.
 */
export interface Stack {
  readonly characteristic: string;
  /** The row of the drawing that it belongs to: itself, or its pattern. */
  readonly row: string;
  readonly kind: Characteristic["kind"];
  /** What its deviation, limits and components are told in: radians of an angle, mm otherwise. */
  readonly unit: "mm" | "rad";
  /** Whether the zone is round, so that all lengths are diameters and there are components along X and Y. */
  readonly isRound: boolean;
  /** Deviation by component, mm. */
  readonly components: readonly Budget[];
  readonly limits: Range;
  /** At the best estimates: signed deviation, or the diameter used. */
  readonly deviation: number;
  readonly worstCase: Range;
  readonly rootSumSquare: Range;
  /** Share of the tolerance that is used, 1 for all of it. */
  readonly shares: { readonly deviation: number; readonly worstCase: number; readonly rootSumSquare: number };
  /** Chance of being within the tolerance. */
  readonly chance: number;
  /** A bound of what `chance` may be off; its distribution is surer of what is rare. */
  readonly chanceError: number;
  /** Of a zone at maximum material. */
  readonly bonus: Bonus | undefined;
  /** In a round zone: what would be known if the point were farther off, or less, in the same direction; diameters. */
  readonly along: { readonly chanceIfOff: (diameter: number) => number; readonly standardUncertainty: number } | undefined;
  /** Derivatives of the components by every source that has any effect. */
  readonly effects: readonly Effect[];
  /** Of what is compared with the limits. */
  readonly distribution: Distribution;
  /** By source, largest reach first. */
  readonly rows: readonly StackRow[];
}

/** The stack of a characteristic from the budgets of its deviation (first order, sources with their own distributions). */
export function stackOf(characteristic: Characteristic, components: readonly Budget[]): Stack {
  return isRound(characteristic) ? new RoundStack(characteristic, components) : new LineStack(characteristic, components);
}

abstract class LazyStack implements Stack {
  readonly characteristic: string;
  readonly row: string;
  readonly unit: Stack["unit"];
  readonly kind: Stack["kind"];
  abstract readonly isRound: boolean;
  abstract readonly bonus: Bonus | undefined;
  abstract readonly along: Stack["along"];
  readonly components: readonly Budget[];
  readonly limits: Range;
  readonly effects: readonly Effect[];
  abstract readonly deviation: number;
  private known: ChanceWithError | undefined;
  private readonly made: { -readonly [K in "worstCase" | "rootSumSquare" | "distribution" | "rows"]?: Stack[K] } = {};

  constructor(characteristic: Characteristic, components: readonly Budget[], { lower, upper }: Range) {
    this.characteristic = characteristic.id;
    this.row = rowOf(characteristic);
    this.kind = characteristic.kind;
    this.unit = unitOf(characteristic);
    this.components = components;
    this.limits = { lower, upper };
    this.effects = effectsOf(components);
  }

  get chance(): number {
    this.known ??= this.within();
    return this.known.chance;
  }

  get chanceError(): number {
    this.known ??= this.within();
    return this.known.error;
  }

  get worstCase(): Range {
    this.made.worstCase ??= this.worst();
    return this.made.worstCase;
  }

  get rootSumSquare(): Range {
    this.made.rootSumSquare ??= this.root();
    return this.made.rootSumSquare;
  }

  get shares(): Stack["shares"] {
    const stack = this;
    return {
      get deviation() {
        return stack.shareOf({ lower: stack.deviation, upper: stack.deviation });
      },
      get worstCase() {
        return stack.shareOf(stack.worstCase);
      },
      get rootSumSquare() {
        return stack.shareOf(stack.rootSumSquare);
      },
    };
  }

  get distribution(): Distribution {
    this.made.distribution ??= this.whole();
    return this.made.distribution;
  }

  get rows(): readonly StackRow[] {
    this.made.rows ??= rowsOf(this.effects);
    return this.made.rows;
  }

  protected abstract within(): ChanceWithError;
  protected abstract worst(): Range;
  protected abstract root(): Range;
  protected abstract whole(): Distribution;
  protected abstract shareOf(range: Range): number;

  /** Root of the summed squares of the reaches along one component. */
  protected rootAlong(component: number): number {
    return Math.sqrt(this.effects.reduce((total, { source, sensitivities }) => total + reachOf(source, sensitivities[component]) ** 2, 0));
  }

  /** What the middles of limits that are not symmetric add up to along one component. */
  protected middleAlong(component: number): number {
    return this.effects.reduce((total, { source, sensitivities }) => total + (sensitivities[component] as number) * middleOf(source), 0);
  }
}

class RoundStack extends LazyStack {
  readonly isRound = true;
  readonly deviation: number;
  private readonly mean: readonly [number, number];
  private readonly size: LimitedSize | undefined;
  private madeBonus: Bonus | undefined;

  constructor(characteristic: RoundCharacteristic, components: readonly Budget[]) {
    super(characteristic, components, { lower: 0, upper: characteristic.zone });
    this.mean = components.map(({ value }) => value) as [number, number];
    this.deviation = diameter(...this.mean);
    this.size = characteristic.kind === "position" ? characteristic.atMaximumMaterial : undefined;
  }

  get bonus(): Bonus | undefined {
    this.madeBonus ??= this.size && bonusWithin(this.limits.upper, this.size, this.distribution);
    return this.madeBonus;
  }

  get along(): NonNullable<Stack["along"]> {
    const [x, y] = this.direction();
    return {
      chanceIfOff: (used) => radialChance([(x * used) / 2, (y * used) / 2], this.terms(1), this.limits.upper / 2).chance,
      standardUncertainty:
        2 *
        Math.hypot(
          ...this.effects.map(
            ({ source, sensitivities: [alongX, alongY] }) =>
              (x * (alongX as number) + y * (alongY as number)) * standardUncertaintyOf(source.distribution),
          ),
        ),
    };
  }

  /** In which it is off; of a point that is not off, the axis along which less is known. */
  private direction(): readonly [number, number] {
    const off = Math.hypot(...this.mean);
    if (off > 0) return [this.mean[0] / off, this.mean[1] / off];
    const [x, y] = this.components as readonly [Budget, Budget];
    return x.standardUncertainty >= y.standardUncertainty ? [1, 0] : [0, 1];
  }

  protected within(): ChanceWithError {
    return radialChance(this.mean, this.terms(1), this.limits.upper / 2);
  }

  protected worst(): Range {
    return { lower: 0, upper: 2 * farthestOfZonotope(this.middle(), planarReaches(this.effects)) };
  }

  protected root(): Range {
    const [x, y] = this.middle();
    return { lower: 0, upper: diameter(Math.abs(x) + this.rootAlong(0), Math.abs(y) + this.rootAlong(1)) };
  }

  protected whole(): Distribution {
    return radialDistribution([2 * this.mean[0], 2 * this.mean[1]], this.terms(2));
  }

  private middle(): [number, number] {
    return [this.mean[0] + this.middleAlong(0), this.mean[1] + this.middleAlong(1)];
  }

  protected shareOf({ upper }: Range): number {
    return upper / this.limits.upper;
  }

  private terms(factor: number): RadialTerm[] {
    return independentTerms(this.effects).map(({ sensitivities: [x, y], distribution }) => ({
      coefficient: [factor * (x as number), factor * (y as number)],
      distribution,
    }));
  }
}

function bonusWithin(zone: number, size: LimitedSize, used: Distribution): Bonus {
  const { nominal, limits } = size;
  const [middle, deviation] = [nominal + (limits.lower + limits.upper) / 2, (limits.upper - limits.lower) / 2 / limitsAtDeviations];
  const chanceAt = (z: number) => used.cumulative(zone + bonusOf(size, middle + z * deviation)) * Math.exp((-z * z) / 2);
  const chance = integrate(chanceAt, [-farthestSize, 0, farthestSize], 1e-9).value / Math.sqrt(2 * Math.PI);
  return {
    range: { lower: 0, upper: limits.upper - limits.lower },
    virtualCondition: virtualCondition(size, zone),
    chance: Math.min(1, chance),
  };
}

/** In standard deviations: beyond it there is less than 1e-14 of a normal distribution. */
const farthestSize = 8;

class LineStack extends LazyStack {
  readonly isRound = false;
  readonly bonus = undefined;
  readonly along = undefined;
  readonly deviation: number;

  constructor(characteristic: Exclude<Characteristic, RoundCharacteristic>, components: readonly Budget[]) {
    super(characteristic, components, characteristic.limits);
    this.deviation = (components[0] as Budget).value;
  }

  protected within(): ChanceWithError {
    return linearChance(this.deviation, this.terms(), this.limits.lower, this.limits.upper);
  }

  protected worst(): Range {
    return this.about(linearReaches(this.effects).reduce((total, reach) => total + Math.abs(reach), 0));
  }

  protected root(): Range {
    return this.about(this.rootAlong(0));
  }

  protected whole(): Distribution {
    return linearDistribution(this.deviation, this.terms());
  }

  /**
   * Largest departure of a range from the middle of the limits, as a share of half their width; where there is no upper limit, how much of the way
   * from the drawing's own size down to the lower one is used, 0 above that size.
   */
  protected shareOf({ lower, upper }: Range): number {
    if (this.limits.upper === Number.POSITIVE_INFINITY) return Math.max(0, lower / this.limits.lower);
    const middle = (this.limits.lower + this.limits.upper) / 2;
    return Math.max(Math.abs(lower - middle), Math.abs(upper - middle)) / ((this.limits.upper - this.limits.lower) / 2);
  }

  private about(half: number): Range {
    const middle = this.deviation + this.middleAlong(0);
    return { lower: middle - half, upper: middle + half };
  }

  private terms(): LinearTerm[] {
    return independentTerms(this.effects).map(({ sensitivities: [x], distribution }) => ({ coefficient: x as number, distribution }));
  }
}

/** Width of a tolerance, mm; twice the way from nominal to the lower limit where there is no upper one. */
export function toleranceWidth({ lower, upper }: Range): number {
  return upper === Number.POSITIVE_INFINITY ? -2 * lower : upper - lower;
}

/** F16: the diameter of the smallest zone about the basic place that holds the point, T = 2·√(x² + y²) (ISO 1101, position of an axis; likewise coaxiality about the other axis). */
function diameter(x: number, y: number): number {
  return 2 * Math.sqrt(x * x + y * y);
}

/** The sources that have an effect on any of the components. @throws Error if the components are not results of one computation */
function effectsOf(components: readonly Budget[]): Effect[] {
  const [{ sources }, ...others] = components as readonly [Budget, ...Budget[]];
  if (others.some((other) => other.sources !== sources)) throw new Error("stackOf: expected components of one computation");
  const effects: Effect[] = [];
  for (let i = 0; i < sources.length; i++)
    if (hasEffect(components, i)) effects.push({ source: sources[i] as Source, sensitivities: sensitivitiesTo(components, i) });
  return effects;
}

function hasEffect(components: readonly Budget[], source: number): boolean {
  for (const { sensitivities } of components) if (sensitivities[source] !== 0) return true;
  return false;
}

/** Written out: an array that grows takes many times the room, and tables have thousands of them. */
function sensitivitiesTo([x, y]: readonly Budget[], source: number): number[] {
  const along = (x as Budget).sensitivities[source] as number;
  return y === undefined ? [along] : [along, y.sensitivities[source] as number];
}

function rowsOf(effects: readonly Effect[]): StackRow[] {
  const sizeOf = ({ reaches }: StackRow) => reaches.reduce((total, reach) => total + reach * reach, 0);
  const rows = effects.map(({ source, sensitivities }): StackRow => {
    const standardUncertainty = standardUncertaintyOf(source.distribution);
    return {
      source,
      family: source.family,
      sensitivities,
      amounts: sensitivities.map((sensitivity) => sensitivity * standardUncertainty),
      reaches: sensitivities.map((sensitivity) => sensitivity * boundAbove(source)),
      opposites: sensitivities.map((sensitivity) => -sensitivity * boundBelow(source)),
      unlimited: isUnlimited(source),
    };
  });
  return rows.sort((a, b) => sizeOf(b) - sizeOf(a) || (a.source.id < b.source.id ? -1 : 1));
}
