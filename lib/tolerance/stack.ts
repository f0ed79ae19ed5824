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
  /** Derivatives by the source. */
  readonly sensitivities: readonly number[];
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
  return characteristic.kind === "position" ? positionStack(characteristic, components) : lineStack(characteristic, components);
}

function positionStack({ id, zone }: Extract<Characteristic, { kind: "position" }>, components: readonly Budget[]): Stack {
  const rows = rowsOf(components);
  const [x, y] = components.map(({ value }) => value) as [number, number];
  const terms = rows.map(({ source, sensitivities }) => ({
    coefficient: sensitivities as readonly [number, number],
    distribution: source.distribution,
  }));
  const whole = once(() =>
    radialDistribution(
      [2 * x, 2 * y],
      terms.map(({ coefficient: [a, b], distribution }) => ({ coefficient: [2 * a, 2 * b], distribution })),
    ),
  );
  const [rootX, rootY] = rootsOf(rows, 2) as [number, number];
  const deviation = diameter(x, y);
  const worst =
    2 *
    farthestOfZonotope(
      [x, y],
      rows.map(({ reaches }) => reaches as readonly [number, number]),
    );
  const root = diameter(Math.abs(x) + rootX, Math.abs(y) + rootY);
  return {
    characteristic: id,
    kind: "position",
    components,
    rows,
    limits: { lower: 0, upper: zone },
    deviation,
    worstCase: { lower: 0, upper: worst },
    rootSumSquare: { lower: 0, upper: root },
    shares: { deviation: deviation / zone, worstCase: worst / zone, rootSumSquare: root / zone },
    chance: radialChance([x, y], terms, zone / 2).chance,
    get distribution() {
      return whole();
    },
  };
}

function lineStack({ id, kind, limits }: Exclude<Characteristic, { kind: "position" }>, components: readonly Budget[]): Stack {
  const rows = rowsOf(components);
  const deviation = (components[0] as Budget).value;
  const distribution = linearDistribution(
    deviation,
    rows.map(({ source, sensitivities }) => ({ coefficient: sensitivities[0] as number, distribution: source.distribution })),
  );
  const reach = rows.reduce((total, { reaches }) => total + Math.abs(reaches[0] as number), 0);
  const [root] = rootsOf(rows, 1) as [number];
  const about = (half: number): Range => ({ lower: deviation - half, upper: deviation + half });
  return {
    characteristic: id,
    kind,
    components,
    rows,
    limits,
    deviation,
    worstCase: about(reach),
    rootSumSquare: about(root),
    shares: { deviation: shareOf(about(0), limits), worstCase: shareOf(about(reach), limits), rootSumSquare: shareOf(about(root), limits) },
    chance: distribution.chanceWithin(limits.lower, limits.upper),
    distribution,
  };
}

/** F16: the diameter of the smallest zone about the basic place that holds the point, T = 2·√(x² + y²) (ISO 1101, position of an axis). */
function diameter(x: number, y: number): number {
  return 2 * Math.sqrt(x * x + y * y);
}

/** One row per source over all components, largest reach first. */
function rowsOf(components: readonly Budget[]): StackRow[] {
  const zeros = components.map(() => 0);
  const gathered = new Map<Source, { amounts: number[]; sensitivities: number[] }>();
  components.forEach(({ contributions }, component) => {
    for (const { source, amount, sensitivity } of contributions) {
      let row = gathered.get(source);
      if (row === undefined) {
        row = { amounts: [...zeros], sensitivities: [...zeros] };
        gathered.set(source, row);
      }
      row.amounts[component] = amount;
      row.sensitivities[component] = sensitivity;
    }
  });
  const rows = Array.from(gathered, ([source, { amounts, sensitivities }]) => {
    const limit = source.limit ?? limitOf(source);
    const scale = limit ?? unlimitedAt * standardUncertaintyOf(source.distribution);
    const reaches = sensitivities.map((sensitivity) => sensitivity * scale);
    const size = reaches.reduce((total, reach) => total + reach * reach, 0);
    return { size, row: { source, family: source.family, sensitivities, amounts, reaches, unlimited: limit === undefined } };
  });
  return rows.sort((a, b) => b.size - a.size || (a.row.source.id < b.row.source.id ? -1 : 1)).map(({ row }) => row);
}

function rootsOf(rows: readonly StackRow[], components: number): number[] {
  return Array.from({ length: components }, (_, component) =>
    Math.sqrt(rows.reduce((total, { reaches }) => total + (reaches[component] as number) ** 2, 0)),
  );
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

/** Largest departure of a range from the middle of the limits, as a share of half their width. */
function shareOf({ lower, upper }: Range, limits: Limits): number {
  const middle = (limits.lower + limits.upper) / 2;
  return Math.max(Math.abs(lower - middle), Math.abs(upper - middle)) / ((limits.upper - limits.lower) / 2);
}
