import { matrixOf } from "../../../lib/base/matrix.ts";
import { indexOfAxis } from "../../../lib/base/vector.ts";
import type { SetupEvaluation, StrategyEvaluation } from "../../../lib/decision/setupEvaluation.ts";
import { type Characteristic, isOrientation } from "../../../lib/part/part.ts";
import type { AxisSigns } from "../../../lib/part/partLies.ts";
import type { View } from "../../../lib/tolerance/deviations.ts";
import type { Range, Stack } from "../../../lib/tolerance/stack.ts";
import type { Budget } from "../../../lib/uncertainty/budget.ts";
import { ellipticalRegion } from "../../../lib/uncertainty/coverageRegion.ts";
import { type CoverageEllipse, coverageEllipse } from "../coverageEllipse.ts";

/** What the regions hold when deviations are normal. */
const mapProbability = 0.95;

/** Where the axis or plane of a feature comes to lie, off its place on the drawing, mm. */
export interface MappedRegion {
  readonly mean: readonly [x: number, y: number];
  /** Of a round zone. */
  readonly ellipse: CoverageEllipse | undefined;
  /** Half of the interval along the axis of a zone between two limits. */
  readonly half: number;
  /** Whether some of the region lies outside of the zone. */
  readonly leaves: boolean;
  readonly chance: number;
}

/** A toleranced feature with a place in the plan. */
export interface MappedFeature {
  readonly characteristic: string;
  readonly element: string;
  /** In the drawing's frame, as the part lies in the machine, mm; undefined where it has no coordinate. */
  readonly at: readonly [x: number | undefined, y: number | undefined];
  /** A round zone by its diameter, or limits along an axis. */
  readonly zone:
    | { readonly kind: "round"; readonly diameter: number }
    | { readonly kind: "between"; readonly axis: 0 | 1; readonly limits: Range };
  readonly regions: Readonly<Record<View, MappedRegion | undefined>>;
}

export interface PartMap {
  readonly features: readonly MappedFeature[];
  /** Characteristics that have no place in the plan, and why. */
  readonly others: readonly { readonly characteristic: string; readonly why: string }[];
}

/** Every characteristic of a strategy with the regions that its deviation covers, this part and the batch. */
export function mappedFeatures({ setup, location }: SetupEvaluation, strategy: StrategyEvaluation): PartMap {
  const features: MappedFeature[] = [];
  const others: PartMap["others"][number][] = [];
  const signs = setup.operation?.signs ?? asDrawn;
  for (const [i, characteristic] of setup.part.characteristics.entries()) {
    const { id, of } = characteristic;
    const zone = zoneOf(characteristic);
    const place = location.located.places.get(of);
    const element = setup.part.elements.find((each) => each.id === of);
    const at = element?.made === "here" ? ([element.at[0], element.at[1]] as const) : ([place?.[0]?.nominal, place?.[1]?.nominal] as const);
    const stacks = { thisPart: strategy.thisPart.stacks[i], batch: strategy.batch.stacks[i] };
    const regionIn = (view: View) => {
      const stack = stacks[view];
      return stack?.ok === true && typeof zone !== "string" ? lyingRegion(regionOf(stack.value, zone), signs) : undefined;
    };
    if (typeof zone === "string") others.push({ characteristic: id, why: zone });
    else if (at[0] === undefined && at[1] === undefined) others.push({ characteristic: id, why: "no place" });
    else
      features.push({
        characteristic: id,
        element: of,
        at,
        zone: lyingZone(zone, signs),
        regions: { thisPart: regionIn("thisPart"), batch: regionIn("batch") },
      });
  }
  return { features, others };
}

const asDrawn: AxisSigns = [1, 1, 1];

/** Deviations are told as the drawing has them, and the plan shows the part as it lies. */
function lyingZone(zone: MappedFeature["zone"], signs: AxisSigns): MappedFeature["zone"] {
  if (zone.kind === "round" || signs[zone.axis] === 1) return zone;
  return { ...zone, limits: { lower: -zone.limits.upper, upper: -zone.limits.lower } };
}

function lyingRegion(region: MappedRegion, [sx, sy]: AxisSigns): MappedRegion {
  const [x, y] = region.mean;
  const { ellipse } = region;
  return {
    ...region,
    mean: [x * sx, y * sy],
    ellipse: ellipse && (sx === sy ? ellipse : { ...ellipse, angle: -ellipse.angle }),
  };
}

function zoneOf(characteristic: Characteristic): MappedFeature["zone"] | string {
  if (isOrientation(characteristic)) return "a turn";
  if ("zone" in characteristic) return { kind: "round", diameter: characteristic.zone };
  if (characteristic.kind === "wall thickness") return "a thickness";
  const axis = indexOfAxis(characteristic.axis);
  return axis === 2 ? "along Z" : { kind: "between", axis, limits: characteristic.limits };
}

function regionOf(stack: Stack, zone: MappedFeature["zone"]): MappedRegion {
  const [x, y] = stack.components as readonly [Budget, Budget?];
  if (zone.kind === "round" && y !== undefined) {
    const ellipse = coverageEllipse(x, y, mapProbability);
    const mean = [x.value, y.value] as const;
    return { mean, ellipse, half: 0, leaves: farthestOf(mean, ellipse) > zone.diameter / 2, chance: stack.chance };
  }
  const half = ellipticalRegion(
    matrixOf(1, 1, () => x.standardUncertainty ** 2),
    mapProbability,
  ).halfAxes[0] as number;
  const { lower, upper } = stack.limits;
  const along = zone.kind === "between" && zone.axis === 1 ? ([0, x.value] as const) : ([x.value, 0] as const);
  return { mean: along, ellipse: undefined, half, leaves: x.value - half < lower || x.value + half > upper, chance: stack.chance };
}

const directions = 360;

/** Farthest from the middle of the zone that any point of the region lies, mm. */
function farthestOf([x, y]: readonly [number, number], { major, minor, angle }: CoverageEllipse): number {
  let farthest = 0;
  for (let i = 0; i < directions; i++) {
    const [along, across] = [major * Math.cos((2 * Math.PI * i) / directions), minor * Math.sin((2 * Math.PI * i) / directions)];
    const dx = x + along * Math.cos(angle) - across * Math.sin(angle);
    const dy = y + along * Math.sin(angle) + across * Math.cos(angle);
    farthest = Math.max(farthest, Math.hypot(dx, dy));
  }
  return farthest;
}

/** Half of what a feature covers on the map with its zone and regions, mm, before it is enlarged. */
export function reachOfFeature({ zone, regions }: MappedFeature): number {
  const finite = (value: number) => (Number.isFinite(value) ? Math.abs(value) : 0);
  const ofZone = zone.kind === "round" ? zone.diameter / 2 : Math.max(finite(zone.limits.lower), finite(zone.limits.upper));
  const ofRegions = Object.values(regions).map((region) =>
    region === undefined ? 0 : Math.hypot(...region.mean) + Math.max(region.ellipse?.major ?? 0, region.half),
  );
  return Math.max(ofZone, ...ofRegions);
}
