import type { View } from "../../../lib/tolerance/deviations.ts";
import { enlargement } from "../enlargement.ts";
import { formatMet } from "../formatChance.ts";
import { type Board, boxAbout, label } from "../sketch/board.ts";
import type { Plan } from "../sketch/planOf.ts";
import { moved, type Spot } from "../sketch/projection.ts";
import { pathOf } from "../svgBuilder.ts";
import { type MappedFeature, type MappedRegion, reachOfFeature } from "./mappedFeatures.ts";

/** Half of the largest feature as it is drawn on a sheet of this width, pixels: margins of the map leave as much. */
export function largestOn({ width }: Pick<Board["sheet"], "width">): number {
  return Math.max(36, Math.min(64, width * 0.075));
}

/** Neighbours are kept from each other down to this half size, pixels; smaller ones could not be read. */
const leastDrawn = 9;
/** Half a zone is never drawn smaller, pixels. */
const leastZone = 1.5;

/**
 * By how much zones and regions are enlarged: as much as the sheet and the nearest neighbours leave room for.
 *
 * @returns undefined where nothing has any size
 */
export function enlargementOf(
  features: readonly MappedFeature[],
  spots: readonly Spot[],
  { projection: { scale }, sheet }: Pick<Board, "projection" | "sheet">,
): number | undefined {
  const reaches = features.map(reachOfFeature);
  const largest = Math.max(0, ...reaches);
  if (!(largest > 0)) return undefined;
  let most = largestOn(sheet) / (largest * scale);
  for (let i = 0; i < spots.length; i++)
    for (let j = 0; j < i; j++) {
      const apart = Math.hypot(...([0, 1] as const).map((k) => (spots[i] as Spot)[k] - (spots[j] as Spot)[k]));
      // Two characteristics of one element share its place.
      if (apart > 1) most = Math.min(most, apart / (((reaches[i] as number) + (reaches[j] as number)) * scale));
    }
  return enlargement(1, Math.max(most, leastDrawn / (largest * scale)));
}

/** Where a feature stands on the sheet: one that has a place along one axis only stands at the middle of the plan. */
export function spotOf(board: Pick<Board, "projection">, { x, y }: Plan, [atX, atY]: MappedFeature["at"]): Spot {
  const middle = (span: Plan["x"]) => (span[0].at + span[1].at) / 2;
  return board.projection.spot(atX ?? middle(x), atY ?? middle(y));
}

/** A feature with its zone, the batch's region and this part's on top of it. */
export function drawFeature(board: Board, feature: MappedFeature, spot: Spot, factor: number): void {
  const { draw, marks, projection } = board;
  const size = projection.scale * factor;
  const zone =
    feature.zone.kind === "round"
      ? draw("circle", { class: "fig-zone", cx: spot[0], cy: spot[1], r: Math.max(leastZone, (feature.zone.diameter / 2) * size) })
      : betweenLimits(board, feature.zone, spot, size);
  const regions = (["batch", "thisPart"] as const).flatMap((view) => {
    const region = feature.regions[view];
    return region === undefined ? [] : [drawRegion(board, feature, region, view, spot, size)];
  });
  marks.push(draw("g", {}, draw("title", {}, featureInWords(feature)), zone, ...regions));
  const half = Math.min(largestOn(board.sheet), Math.max(4, reachOfFeature(feature) * size));
  board.obstacles.push(boxAbout(spot, spot, half * 0.85));
  const leaves = Object.values(feature.regions).some((region) => region?.leaves === true);
  label(board, feature.characteristic, spot, {
    gap: half + 3,
    room: 120,
    optional: true,
    className: leaves ? "fig-small fig-strong" : "fig-small",
    prefer: ["right", "left", "above", "below", "above right", "below right", "above left", "below left"],
  });
}

/** A dimension's limits as two marks across its axis, with the way between them. */
function betweenLimits(
  { draw, projection }: Board,
  { axis, limits }: Extract<MappedFeature["zone"], { kind: "between" }>,
  spot: Spot,
  size: number,
): SVGElement {
  const way = axis === 0 ? projection.along(1, 0) : projection.along(0, 1);
  const across: Spot = [-way[1], way[0]];
  const ends = [limits.lower, limits.upper].map((limit) => (Number.isFinite(limit) ? moved(spot, limit * size, way) : undefined));
  const tick = (at: Spot | undefined) => (at === undefined ? [] : ["M", ...moved(at, -6, across), "L", ...moved(at, 6, across)]);
  const [from, to] = [ends[0] ?? spot, ends[1] ?? spot];
  return draw("path", { class: "fig-zone", d: pathOf("M", ...from, "L", ...to, ...tick(ends[0]), ...tick(ends[1])) });
}

function drawRegion(
  { draw, projection }: Board,
  { zone }: MappedFeature,
  { mean, ellipse, half }: MappedRegion,
  view: View,
  spot: Spot,
  size: number,
): SVGElement {
  const [dx, dy] = projection.along(mean[0], mean[1]);
  const middle: Spot = [spot[0] + dx * size, spot[1] + dy * size];
  const className = view === "thisPart" ? "fig-region" : "fig-region fig-region-wide";
  if (ellipse !== undefined) {
    const degrees = ((-(ellipse.angle + projection.turned) * 180) / Math.PI).toFixed(2);
    return draw("ellipse", {
      class: className,
      cx: middle[0],
      cy: middle[1],
      rx: Math.max(0.75, ellipse.major * size),
      ry: Math.max(0.75, ellipse.minor * size),
      transform: `rotate(${degrees} ${middle[0].toFixed(2)} ${middle[1].toFixed(2)})`,
    });
  }
  const way = zone.kind === "between" && zone.axis === 1 ? projection.along(0, 1) : projection.along(1, 0);
  const across: Spot = [-way[1], way[0]];
  const thick = view === "thisPart" ? 2.5 : 4.5;
  const corner = (along: number, aside: number) => moved(moved(middle, along * Math.max(0.75, half * size), way), aside * thick, across);
  const corners = [corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)];
  return draw("path", { class: className, d: `${corners.map((at, i) => pathOf(i === 0 ? "M" : "L", ...at)).join(" ")} Z` });
}

function featureInWords({ characteristic, regions }: MappedFeature): string {
  const told = (["thisPart", "batch"] as const).map((view) => {
    const region = regions[view];
    const name = view === "thisPart" ? "this part" : "the batch";
    return region === undefined ? `${name} not known` : `${name} met ${formatMet(region.chance)}`;
  });
  return `${characteristic}: ${told.join("; ")}`;
}
