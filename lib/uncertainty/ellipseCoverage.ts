import type { EllipticalRegion } from "./coverageRegion.ts";
import type { ChanceWithError } from "./distribution.ts";
import { isVisible } from "./internals/isVisible.ts";
import { quickRadialChance, radialChance } from "./radialChance.ts";
import type { RadialTerm } from "./radialDistribution.ts";

/**
 * The chance that two results lie within their elliptical region, by the joint distribution of their sources rather than the normal one:
 * along its axes, in standard uncertainties, the ellipse is a disc of radius k.
 *
 * @param region of two results
 * @param terms the independent sources of both results with their two sensitivities
 * @throws RangeError for a region of another number of results, and as radialChance
 */
export function ellipseCoverage(region: EllipticalRegion, terms: readonly RadialTerm[]): ChanceWithError {
  return coverageBy(radialChance, region, terms);
}

/** The same where it is quick, which is decided beforehand by the sources alone; undefined elsewhere: a few bounded sources that dominate may take many seconds. */
export function quickEllipseCoverage(region: EllipticalRegion, terms: readonly RadialTerm[]): ChanceWithError | undefined {
  return coverageBy(quickRadialChance, region, terms);
}

function coverageBy<C>(
  chanceOf: (mean: readonly [x: number, y: number], terms: readonly RadialTerm[], radius: number) => C,
  { factor, halfAxes, directions, dimension }: EllipticalRegion,
  terms: readonly RadialTerm[],
): C | ChanceWithError {
  if (halfAxes.length !== 2) throw new RangeError(`region: expected one of 2 results, got ${halfAxes.length}`);
  if (dimension === 0) return { chance: 1, error: 0 };
  const along = (axis: 0 | 1, [x, y]: RadialTerm["coefficient"]) => {
    const [dx, dy] = directions[axis] as readonly [number, number];
    // In a direction without doubt no source acts, but for rounding.
    return axis < dimension ? ((x * dx + y * dy) * factor) / (halfAxes[axis] as number) : 0;
  };
  const visible = terms.flatMap(({ coefficient, distribution }): RadialTerm[] => {
    const turned = [along(0, coefficient), along(1, coefficient)] as const;
    return isVisible(distribution, Math.hypot(...turned), invisible) ? [{ coefficient: turned, distribution }] : [];
  });
  return chanceOf([0, 0], visible, factor);
}

/** In standard uncertainties of the results: smaller terms are rounding, move no chance, and would cost much time. */
const invisible = 1e-12;
