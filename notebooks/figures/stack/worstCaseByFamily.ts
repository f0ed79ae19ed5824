import { linearReaches, planarReaches } from "../../../lib/tolerance/reaches.ts";
import type { Stack } from "../../../lib/tolerance/stack.ts";
import { type Family, families } from "../../../lib/uncertainty/source.ts";

/** A worst case taken apart: `estimate` and all `reaches` add up to the farthest that an axis can be, as a diameter, or to half of a range's width. */
export interface WorstCaseParts {
  /** What the best estimate gives towards it, with skewed sources at the middle of their limits, mm of diameter; 0 without a round zone. */
  readonly estimate: number;
  /** By family in fixed order, those without effect left out; mm, mm of diameter in a round zone. */
  readonly reaches: readonly { readonly family: Family; readonly reach: number }[];
}

/**
 * How the families make up the worst case of a stack.
 *
 * For one coordinate the reaches add up as they are. In a round zone they add up
 * along the direction of the farthest corner: no point of the set reaches farther
 * in that direction, so every source acts there with |reach · direction|.
 */
export function worstCaseByFamily({ isRound, components, rows }: Stack): WorstCaseParts {
  if (!isRound) return { estimate: 0, reaches: byFamily(rows, [1]) };
  const centre = components.map(({ value }, k) => rows.reduce((sum, row) => sum + middle(row, k), value)) as [number, number];
  const [x, y] = farthestDirection(centre, planarReaches(rows));
  return { estimate: 2 * (centre[0] * x + centre[1] * y), reaches: byFamily(rows, [2 * x, 2 * y]) };
}

/** What the middle of the limits of a source is off its best estimate; 0 unless it is skewed. */
function middle({ reaches, opposites }: Stack["rows"][number], component: number): number {
  return ((reaches[component] as number) + (opposites[component] as number)) / 2;
}

/** What the sources of each family do along a direction together; the length of the direction multiplies it. */
function byFamily(rows: Stack["rows"], direction: readonly number[]): WorstCaseParts["reaches"] {
  return families.flatMap((family) => {
    const along = rows
      .filter((row) => row.family === family)
      .map(({ source, sensitivities }) => ({
        source,
        sensitivities: [direction.reduce((sum, part, k) => sum + part * (sensitivities[k] as number), 0)],
      }));
    const reach = linearReaches(along).reduce((sum, each) => sum + Math.abs(each), 0);
    return reach > 0 ? [{ family, reach }] : [];
  });
}

/** Unit vector towards the farthest corner of centre ± generators; a corner changes only where a direction is square to a generator. */
function farthestDirection(
  [cx, cy]: readonly [number, number],
  generators: readonly (readonly [number, number])[],
): readonly [number, number] {
  const turns = generators.filter(([x, y]) => x !== 0 || y !== 0).map(([x, y]) => Math.atan2(x, -y));
  const corners = turns
    .flatMap((angle) => [angle + tiny, angle - tiny, angle + Math.PI + tiny, angle + Math.PI - tiny])
    .map((angle) => {
      const direction = [Math.cos(angle), Math.sin(angle)] as const;
      return generators.reduce<[number, number]>(
        ([x, y], [gx, gy]) => {
          const side = gx * direction[0] + gy * direction[1] >= 0 ? 1 : -1;
          return [x + side * gx, y + side * gy];
        },
        [cx, cy],
      );
    });
  let [x, y] = [cx, cy];
  for (const [a, b] of corners) if (Math.hypot(a, b) > Math.hypot(x, y)) [x, y] = [a, b];
  const distance = Math.hypot(x, y);
  return distance === 0 ? [1, 0] : [x / distance, y / distance];
}

/** A turn, radians, far below the angle between any two generators that matter and far above rounding. */
const tiny = 1e-9;
