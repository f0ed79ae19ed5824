import { farthestOfZonotope } from "../base/zonotope.ts";
import type { Characteristic, Limits } from "../part/part.ts";
import type { Budget } from "../uncertainty/budget.ts";
import type { Distribution } from "../uncertainty/distribution.ts";
import { linearDistribution } from "../uncertainty/linearDistribution.ts";
import { radialChance } from "../uncertainty/radialChance.ts";
import { radialDistribution } from "../uncertainty/radialDistribution.ts";
import type { Family, Source } from "../uncertainty/source.ts";
import { standardUncertaintyOf } from "../uncertainty/sourceDistribution.ts";

/**
 * Sources without an end enter a worst case at this many standard uncertainties
 * (99.73 % of a normal distribution): common practice, no source.
 */
export const unlimitedAt = 3;

/** What one source can do to a characteristic, mm: X and Y for a position, one entry otherwise. */
export interface StackRow {
  readonly source: Source;
  readonly family: Family;
  /** Signed: effect of one standard uncertainty. */
  readonly amounts: readonly number[];
  /** Signed: effect of the source at its limit. */
  readonly reaches: readonly number[];
  /** Whether the limit is `unlimitedAt` standard uncertainties for want of a real one. */
  readonly unlimited: boolean;
}

/** Range of what is compared with the tolerance, mm: a deviation, or the diameter used of a position zone. */
export interface Range {
  readonly lower: number;
  readonly upper: number;
}

/**
 * How a characteristic meets its tolerance: three readings of one row of
 * sensitivities. For a position everything is told as the diameter 2·√(x² + y²),
 * which the zone's diameter limits.
 */
export interface Stack {
  readonly characteristic: string;
  readonly kind: "position" | "coordinate" | "distance";
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
  /** Of what is compared with the limits; computed when it is first asked for. */
  readonly distribution: Distribution;
  readonly rows: readonly StackRow[];
}

/** The stack of a characteristic from the budgets of its deviation (first order, sources with their own distributions). */
export function stackOf(characteristic: Characteristic, components: readonly Budget[]): Stack {
  const rows = rowsOf(components);
  const estimate = components.map(({ value }) => value);
  const common = { characteristic: characteristic.id, kind: characteristic.kind, components, rows };
  if (characteristic.kind === "position") {
    const [x, y] = estimate as [number, number];
    const terms = rows.map(({ source, amounts }) => ({ coefficient: coefficientsOf(amounts, source) as [number, number], distribution: source.distribution }));
    const doubled = terms.map(({ coefficient: [a, b], distribution }) => ({ coefficient: [2 * a, 2 * b] as const, distribution }));
    const roots = [0, 1].map((axis) => Math.sqrt(rows.reduce((total, { reaches }) => total + (reaches[axis] as number) ** 2, 0)));
    const zone: Range = { lower: 0, upper: characteristic.zone };
    const deviation = 2 * Math.hypot(x, y);
    const worstCase: Range = { lower: 0, upper: 2 * farthestOfZonotope([x, y], rows.map(({ reaches }) => reaches as [number, number])) };
    const rootSumSquare: Range = { lower: 0, upper: 2 * Math.hypot(Math.abs(x) + (roots[0] as number), Math.abs(y) + (roots[1] as number)) };
    const share = (range: Range) => range.upper / zone.upper;
    const whole = once(() => radialDistribution([2 * x, 2 * y], doubled));
    return {
      ...common,
      limits: zone,
      deviation,
      worstCase,
      rootSumSquare,
      shares: { deviation: deviation / zone.upper, worstCase: share(worstCase), rootSumSquare: share(rootSumSquare) },
      chance: radialChance([2 * x, 2 * y], doubled, zone.upper).chance,
      get distribution() {
        return whole();
      },
    };
  }
  const deviation = estimate[0] as number;
  const distribution = linearDistribution(
    deviation,
    rows.map(({ source, amounts }) => ({ coefficient: coefficientsOf(amounts, source)[0] as number, distribution: source.distribution })),
  );
  const reach = rows.reduce((total, { reaches }) => total + Math.abs(reaches[0] as number), 0);
  const root = Math.sqrt(rows.reduce((total, { reaches }) => total + (reaches[0] as number) ** 2, 0));
  const about = (half: number): Range => ({ lower: deviation - half, upper: deviation + half });
  const { limits } = characteristic;
  return {
    ...common,
    limits,
    deviation,
    worstCase: about(reach),
    rootSumSquare: about(root),
    shares: { deviation: shareOf(about(0), limits), worstCase: shareOf(about(reach), limits), rootSumSquare: shareOf(about(root), limits) },
    chance: distribution.chanceWithin(limits.lower, limits.upper),
    distribution,
  };
}

/** One row per source over all components, largest effect first. */
function rowsOf(components: readonly Budget[]): StackRow[] {
  const rows = new Map<string, { source: Source; amounts: number[]; sensitivities: number[] }>();
  components.forEach(({ contributions }, component) => {
    for (const { source, amount, sensitivity } of contributions) {
      const row = rows.get(source.id) ?? { source, amounts: components.map(() => 0), sensitivities: components.map(() => 0) };
      row.amounts[component] = amount;
      row.sensitivities[component] = sensitivity;
      rows.set(source.id, row);
    }
  });
  return [...rows.values()]
    .map(({ source, amounts, sensitivities }): StackRow => {
      const limit = source.limit ?? limitOf(source);
      const unlimited = limit === undefined;
      const scale = limit ?? unlimitedAt * standardUncertaintyOf(source.distribution);
      return { source, family: source.family, amounts, reaches: sensitivities.map((sensitivity) => sensitivity * scale), unlimited };
    })
    .sort((a, b) => Math.hypot(...b.reaches) - Math.hypot(...a.reaches) || (a.source.id < b.source.id ? -1 : 1));
}

function once<T>(make: () => T): () => T {
  let made: { readonly value: T } | undefined;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}

function limitOf({ distribution }: Source): number | undefined {
  return distribution.shape === "normal" || distribution.shape === "scaledT" ? undefined : distribution.halfWidth;
}

function coefficientsOf(amounts: readonly number[], { distribution }: Source): number[] {
  const standardUncertainty = standardUncertaintyOf(distribution);
  return amounts.map((amount) => amount / standardUncertainty);
}

/** Largest departure of a range from the middle of the limits, as a share of half their width. */
function shareOf({ lower, upper }: Range, limits: Limits): number {
  const middle = (limits.lower + limits.upper) / 2;
  return Math.max(Math.abs(lower - middle), Math.abs(upper - middle)) / ((limits.upper - limits.lower) / 2);
}
