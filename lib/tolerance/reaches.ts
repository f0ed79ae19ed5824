import type { Source } from "../uncertainty/source.ts";
import { lowerReachOf, standardUncertaintyOf, upperReachOf } from "../uncertainty/sourceDistribution.ts";

/**
 * Sources without an end enter a worst case at this many standard uncertainties
 * (99.73 % of a normal distribution): common practice, no source.
 */
export const unlimitedAt = 3;

/** How a characteristic follows one source: X and Y in a round zone, one entry otherwise. */
export interface Effect {
  readonly source: Source;
  readonly sensitivities: readonly number[];
}

/** What each source can do to one coordinate, mm, signed; the two of a point within a circle together: the circle's radius times the length of both. */
export function linearReaches(effects: readonly Effect[]): number[] {
  const { single, circles } = byCircle(effects);
  return [
    ...single.map(({ source, sensitivities }) => reachOf(source, sensitivities[0])),
    ...circles.map((pair) => Math.hypot(...pair.map(({ source, sensitivities }) => reachOf(source, sensitivities[0])))),
  ];
}

/** Diameters of the polygon that stands for a circle: its corners lie 1/cos(180°/(2·this)) of the radius out, 0.008 % too far and never short. */
const circleSides = 128;

/** The same in the plane. A circle becomes the polygon about it, whose sides are reaches like any other. */
export function planarReaches(effects: readonly Effect[]): (readonly [number, number])[] {
  const { single, circles } = byCircle(effects);
  return [
    ...single.map(({ source, sensitivities: [x, y] }) => [reachOf(source, x), reachOf(source, y)] as const),
    ...circles.flatMap(polygonAbout),
  ];
}

function polygonAbout(pair: readonly Effect[]): (readonly [number, number])[] {
  const side = Math.tan(Math.PI / (2 * circleSides));
  return Array.from({ length: circleSides }, (_, k) => {
    const angle = (k * Math.PI) / circleSides;
    const parts = [Math.cos(angle) * side, Math.sin(angle) * side];
    const along = (component: 0 | 1) =>
      pair.reduce((total, { source, sensitivities }, i) => total + reachOf(source, sensitivities[component]) * (parts[i] as number), 0);
    return [along(0), along(1)] as const;
  });
}

/** Effects by themselves, and those of the two coordinates of points within circles; where only one coordinate counts it is one by itself. */
function byCircle(effects: readonly Effect[]): { readonly single: readonly Effect[]; readonly circles: readonly (readonly Effect[])[] } {
  if (!effects.some(({ source }) => source.circle !== undefined)) return { single: effects, circles: [] };
  const groups = new Map<string, Effect[]>();
  for (const effect of effects) {
    const { circle } = effect.source;
    if (circle !== undefined) groups.set(circle, [...(groups.get(circle) ?? []), effect]);
  }
  const circles = [...groups.values()].filter(({ length }) => length === 2);
  const paired = new Set(circles.flat());
  return { single: effects.filter((effect) => !paired.has(effect)), circles };
}

/** Signed effect of half of the way between the limits of a source: of its limit, if they are symmetric. */
export function reachOf(source: Source, sensitivity: number | undefined): number {
  return ((sensitivity as number) * (boundBelow(source) + boundAbove(source))) / 2;
}

/** How far the middle between the limits of a source lies above its best estimate. */
export function middleOf(source: Source): number {
  return (boundAbove(source) - boundBelow(source)) / 2;
}

/** How far below its best estimate a source is taken to go. */
export function boundBelow(source: Source): number {
  const limit = limitBelow(source);
  return Number.isFinite(limit) ? limit : unlimitedAt * standardUncertaintyOf(source.distribution);
}

/** How far above its best estimate a source is taken to go. */
export function boundAbove(source: Source): number {
  const limit = limitAbove(source);
  return Number.isFinite(limit) ? limit : unlimitedAt * standardUncertaintyOf(source.distribution);
}

/** How far below its best estimate a source can go; `Infinity` where nothing limits it. */
function limitBelow({ distribution, limit }: Source): number {
  return limit ?? lowerReachOf(distribution);
}

/** How far above its best estimate a source can go; `Infinity` where nothing limits it. */
function limitAbove({ distribution, limit }: Source): number {
  return limit ?? upperReachOf(distribution);
}

/** Whether one of a source's limits is `unlimitedAt` standard uncertainties for want of a real one. */
export function isUnlimited(source: Source): boolean {
  return !(Number.isFinite(limitBelow(source)) && Number.isFinite(limitAbove(source)));
}
